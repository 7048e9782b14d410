import { cellName } from '../../sheets/address';
import type { FileRemark } from '../../sheets/book';
import type { Link } from '../parts';
import { elements } from '../xml';

/** Text boxes, pictures, shapes, controls and charts of a sheet: they may cover what the cells show. */
export function drawnRemarks(
  sheet: string,
  xml: string,
  links: readonly Link[],
  text: (path: string) => string | undefined,
): FileRemark[] {
  const found: FileRemark[] = [];
  const tell = (words: string, more: Partial<FileRemark> = {}) =>
    found.push({
      sheet,
      message: `${words[0]!.toUpperCase()}${words.slice(1)} lies on the sheet and may cover what its cells show.`,
      expected: 'nothing beside the cells but the charts of the layout',
      found: words,
      isGrave: true,
      ...more,
    });
  for (const { part } of links.filter(({ kind }) => kind === 'drawing')) {
    for (const [anchor] of (text(part) ?? '').matchAll(ANCHOR)) {
      const over = placeOf(anchor);
      const words = KINDS.find(([pattern]) => pattern.test(anchor))?.[1] ?? 'a drawing';
      tell(words, { ...(over ? { at: over } : {}), ...(words === 'a chart' ? { isChart: true } : {}) });
    }
  }
  for (const { part } of links.filter(({ kind }) => kind === 'vmlDrawing')) {
    for (const { attribute } of elements(text(part) ?? '', 'ClientData')) {
      const type = attribute('ObjectType') ?? '';
      if (type !== 'Note') tell(`a control (${type})`);
    }
  }
  if (elements(xml, 'picture').length > 0) tell('a picture behind the cells');
  if (elements(xml, 'oleObject').length > 0) tell('an object of another program');
  return found;
}

const ANCHOR =
  /<(?:\w+:)?(?:two|one)CellAnchor[\s>][\s\S]*?<\/(?:\w+:)?(?:two|one)CellAnchor>|<(?:\w+:)?absoluteAnchor[\s>][\s\S]*?<\/(?:\w+:)?absoluteAnchor>/g;
/** What an anchor holds (ECMA-376-1, 20.5.2). */
const KINDS: readonly (readonly [RegExp, string])[] = [
  [/<(?:\w+:)?pic[\s>]/, 'a picture'],
  [/<(?:\w+:)?chart\s/, 'a chart'],
  [/<(?:\w+:)?sp[\s>]/, 'a text box or shape'],
  [/<(?:\w+:)?cxnSp[\s>]/, 'a line'],
];

/** The cells that it covers; of a drawing without a second corner the cell at its first. */
function placeOf(anchor: string): string | undefined {
  const corner = (name: string) => {
    const inner = new RegExp(`<(?:\\w+:)?${name}>([\\s\\S]*?)</(?:\\w+:)?${name}>`).exec(anchor)?.[1] ?? '';
    const [column, row] = ['col', 'row'].map((each) => elements(inner, each)[0]?.text);
    return column === undefined || row === undefined ? undefined : cellName(Number(row), Number(column));
  };
  const [from, to] = [corner('from'), corner('to')];
  return from !== undefined && to !== undefined && to !== from ? `${from}:${to}` : from;
}
