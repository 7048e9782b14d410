import { cellName, columnIndex, rectOf } from '../../sheets/address';
import type { BookCell } from '../../sheets/book';
import { storedKind } from '../cells';
import { storeFormula } from '../formula';
import { xmlText } from '../handover/xml';

const ROW = /<((?:\w+:)?)row(\s[^<>]*?)?(?:\/>|>((?:(?!<(?:\w+:)?row[\s/>])[\s\S])*?)<\/\1row>)/g;
const CELL = /<((?:\w+:)?)c((?:\s[^<>]*?)?)(?:\/>|>(?:(?:(?!<(?:\w+:)?c[\s/>])[\s\S])*?)<\/\1c>)/g;

/**
 * A worksheet's XML with other contents in some cells. A cell keeps its look; one that was not there takes that of the
 * cell above it, as a line does that is added to a table.
 *
 * @param heights of rows, in points, for rows that were not there
 */
export function putCells(
  xml: string,
  cells: ReadonlyMap<string, BookCell>,
  heights: Readonly<Record<string, number>>,
): string {
  const prefix = /<((?:\w+:)?)sheetData[\s/>]/.exec(xml)?.[1] ?? '';
  const byRow = new Map<number, Map<number, BookCell>>();
  for (const [at, cell] of cells) {
    const { row, column } = rectOf(at);
    byRow.set(row + 1, (byRow.get(row + 1) ?? new Map<number, BookCell>()).set(column, cell));
  }
  const looks = new Map<number, string>();
  const written = (row: number, own: ReadonlyMap<number, BookCell>, contents: string) => {
    const found = new Map<number, string>();
    for (const [whole, , attributes = ''] of contents.matchAll(CELL)) {
      const at = /\sr\s*=\s*["']([A-Z]+)[0-9]+["']/.exec(attributes)?.[1];
      if (at !== undefined) found.set(columnIndex(at), whole);
    }
    for (const [column, cell] of own) {
      const look = lookOf(found.get(column)) ?? looks.get(column);
      found.set(column, cellXml(cellName(row - 1, column), cell, look, prefix));
    }
    return [...found]
      .sort(([a], [b]) => a - b)
      .map(([, text]) => text)
      .join('');
  };
  let next = [...byRow.keys()].sort((a, b) => a - b);
  const added = (row: number) => {
    const height = heights[String(row)];
    const high = height === undefined ? '' : ` ht="${height}" customHeight="1"`;
    return `<${prefix}row r="${row}"${high}>${written(row, byRow.get(row)!, '')}</${prefix}row>`;
  };
  const rows = xml.replace(ROW, (whole, p: string, attributes = '', contents = '') => {
    const row = Number(/\sr\s*=\s*["'](\d+)["']/.exec(attributes)?.[1] ?? 0);
    const before = next
      .filter((each) => each < row)
      .map(added)
      .join('');
    const own = byRow.get(row);
    next = next.filter((each) => each > row);
    const text = own ? `<${p}row${attributes}>${written(row, own, contents)}</${p}row>` : whole;
    for (const [, , of = ''] of contents.matchAll(CELL)) {
      const at = /\sr\s*=\s*["']([A-Z]+)[0-9]+["']/.exec(of)?.[1];
      const look = lookOf(of);
      if (at !== undefined && look !== undefined) looks.set(columnIndex(at), look);
    }
    return before + text;
  });
  const rest = next.map(added).join('');
  if (rest === '') return rows;
  const end = `</${prefix}sheetData>`;
  if (rows.includes(end)) return rows.replace(end, () => rest + end);
  return rows.replace(new RegExp(`<${prefix}sheetData\\s*/>`), () => `<${prefix}sheetData>${rest}${end}`);
}

function lookOf(cell: string | undefined): string | undefined {
  return cell === undefined ? undefined : /\ss\s*=\s*["'](\d+)["']/.exec(cell)?.[1];
}

function cellXml(at: string, { value, formula }: BookCell, look: string | undefined, p: string): string {
  const start = `<${p}c r="${at}"${look === undefined ? '' : ` s="${look}"`}`;
  const f = formula === undefined ? '' : `<${p}f>${xmlText(storeFormula(formula))}</${p}f>`;
  const v = (text: string) => `${f}<${p}v>${xmlText(text)}</${p}v></${p}c>`;
  if (value === null) return f === '' ? `${start}/>` : `${start}>${f}</${p}c>`;
  if (typeof value === 'number') return `${start}>${v(String(value))}`;
  if (typeof value === 'boolean') return `${start} t="b">${v(value ? '1' : '0')}`;
  if (typeof value === 'object') return `${start} t="e">${v(storedKind(value.error))}`;
  if (formula !== undefined) return `${start} t="str">${v(value)}`;
  const text = `<${p}is><${p}t xml:space="preserve">${xmlText(value)}</${p}t></${p}is>`;
  return `${start} t="inlineStr">${text}</${p}c>`;
}
