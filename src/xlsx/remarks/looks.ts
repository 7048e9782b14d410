import type { FileRemark } from '../../sheets/book';
import { FONT } from '../../sheets/style';
import { storedCells } from '../stored';
import { elements } from '../xml';

/** What is odd about each look of a workbook, in words; undefined for a look as of ours. */
export type Looks = readonly (string | undefined)[];

/** Content further in than this is pushed out of its cell, in steps of three spaces (ECMA-376-1, 18.8.1). */
const INDENT = 5;
const PLAIN_FILLS: ReadonlySet<string> = new Set(['none', 'solid', 'gray125']);

/** The looks that cells may have, of `xl/styles.xml`. */
export function readLooks(styles: string): Looks {
  const fonts = blocks(styles, 'fonts', 'font').map(oddFont);
  const fills = blocks(styles, 'fills', 'fill').map(oddFill);
  return blocks(styles, 'cellXfs', 'xf').map((xf) => {
    const [look] = elements(xf, 'xf');
    const odd = [
      fonts[Number(look?.attribute('fontId') ?? 0)],
      fills[Number(look?.attribute('fillId') ?? 0)],
      oddAlignment(xf),
    ].filter((each) => each !== undefined);
    return odd.length > 0 ? odd.join(', ') : undefined;
  });
}

function blocks(xml: string, list: string, item: string): string[] {
  const inner = new RegExp(`<(?:\\w+:)?${list}[\\s>][\\s\\S]*?</(?:\\w+:)?${list}>`).exec(xml)?.[0] ?? '';
  const body = inner.slice(inner.indexOf('>') + 1);
  const one = new RegExp(`<(?:\\w+:)?${item}(?:\\s[^<>]*?)?(?:/>|>[\\s\\S]*?</(?:\\w+:)?${item}>)`, 'g');
  // A tag that closes itself ends before its ">".
  return [...body.matchAll(one)].map(([whole]) => whole);
}

function oddFont(font: string): string | undefined {
  const name = elements(font, 'name')[0]?.attribute('val');
  const isStruck = elements(font, 'strike').some(
    ({ attribute }) => !/^(?:0|false)$/.test(attribute('val') ?? ''),
  );
  const raised = elements(font, 'vertAlign')[0]?.attribute('val');
  const odd = [
    ...(name !== undefined && name !== FONT.name ? [`in ${name}`] : []),
    ...(isStruck ? ['struck out'] : []),
    ...(raised !== undefined && raised !== 'baseline' ? [raised] : []),
  ];
  return odd.length > 0 ? odd.join(', ') : undefined;
}

function oddFill(fill: string): string | undefined {
  if (/<(?:\w+:)?gradientFill[\s>]/.test(fill)) return 'on a gradient';
  const pattern = elements(fill, 'patternFill')[0]?.attribute('patternType') ?? 'none';
  return PLAIN_FILLS.has(pattern) ? undefined : `on a pattern (${pattern})`;
}

function oddAlignment(xf: string): string | undefined {
  const [alignment] = elements(xf, 'alignment');
  if (!alignment) return undefined;
  const { attribute } = alignment;
  if (Number(attribute('indent') ?? 0) > INDENT) return 'pushed out of the cell';
  if (attribute('horizontal') === 'fill') return 'repeated until the cell is full';
  if (/^(?:1|true)$/.test(attribute('shrinkToFit') ?? '')) return 'shrunk to fit';
  return Number(attribute('textRotation') ?? 0) !== 0 ? 'turned' : undefined;
}

/** Numbers of shared texts of which parts have looks of their own. */
export function richTexts(sharedStrings: string): ReadonlySet<number> {
  const found = new Set<number>();
  if (!/<(?:\w+:)?rPr[\s>]/.test(sharedStrings)) return found;
  const items = [...sharedStrings.matchAll(/<(?:\w+:)?si(?:\s[^<>]*?)?(?:\/>|>([\s\S]*?)<\/(?:\w+:)?si>)/g)];
  items.forEach(([, inner = ''], at) => {
    if (/<(?:\w+:)?rPr[\s>]/.test(inner)) found.add(at);
  });
  return found;
}

/** Cells that hold something and are drawn as no cell of ours is, one remark a look. */
export function lookRemarks(
  sheet: string,
  xml: string,
  looks: Looks,
  rich: ReadonlySet<number>,
): FileRemark[] {
  const found = new Map<string, { first: string; count: number }>();
  const cards = cardRemarks(sheet, xml);
  if (rich.size === 0 && looks.every((look) => look === undefined)) return cards;
  for (const { at, type, style, value = '', formula } of storedCells(xml)) {
    if (value === '' && formula === undefined) continue;
    const isRich = type === 's' && rich.has(Number(value));
    const odd = [looks[Number(style ?? 0)], isRich ? 'in parts with looks of their own' : undefined];
    for (const words of odd) {
      if (words === undefined) continue;
      const known = found.get(words);
      if (known) known.count++;
      else found.set(words, { first: at, count: 1 });
    }
  }
  const drawn = [...found].map(([words, { first, count }]) => ({
    sheet,
    at: first,
    message: `${first}${count > 1 ? ` and ${count - 1} more` : ''}: drawn ${words}, as no cell of the layout is.`,
    expected: FONT.name,
    found: words,
    isGrave: false,
  }));
  return [...cards, ...drawn];
}

/** Cells that show a picture or a card in place of their value, which programs tell by a number beside it. */
function cardRemarks(sheet: string, xml: string): FileRemark[] {
  const cards = [...xml.matchAll(/<(?:\w+:)?c(?=\s)[^<>]*?\svm\s*=[^<>]*>/g)];
  return cards.map(([tag]) => {
    const at = /\sr\s*=\s*["']([A-Z]+[0-9]+)["']/.exec(tag)?.[1] ?? '';
    return {
      sheet,
      at,
      message: `${at}: a picture or a card is shown in place of what the cell holds.`,
      expected: 'a figure',
      found: 'a picture or a card',
      isGrave: true,
    };
  });
}
