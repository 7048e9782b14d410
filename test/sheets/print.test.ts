import { strFromU8, unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { columnIndex, columnName, rectOf } from '../../src/sheets/address';
import type { Book, BookSheet } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { FONT } from '../../src/sheets/style';
import { writeXlsx } from '../../src/xlsx';
import { EXAMPLES } from '../audit/examples';
import { SETUPS } from './setups';

/*
 * What is printed can be read: held against the file itself, by the widths of its columns, the paper, the margins and
 * the scale that it asks for. 8 points is the aim of the project for print (common practice: 8 to 12 for body text).
 */
const LEAST_POINTS = 8;

/** ISO 216 and ANSI/ASME Y14.1, in points; upright. */
const PAPERS = {
  A4: [(210 * 72) / 25.4, (297 * 72) / 25.4],
  Letter: [8.5 * 72, 11 * 72],
} as const;

/** ECMA-376-1, 18.3.1.13: digits are 7 pixels wide in Calibri 11, a column has 5 pixels more; 96 pixels an inch. */
function columnWidth(characters: number): number {
  const stored = Math.trunc(((characters * 7 + 5) / 7) * 256) / 256;
  return Math.trunc(((256 * stored + Math.trunc(128 / 7)) / 256) * 7) * 0.75;
}

interface Asked {
  readonly isLandscape: boolean;
  /** Per cent; undefined where it is to fit on pages. */
  readonly scale: number | undefined;
  /** Inches. */
  readonly margins: Readonly<Record<string, number>>;
  /** Columns of each page across. */
  readonly pages: readonly (readonly number[])[];
  /** Rows of each page that is made to begin. */
  readonly rows: readonly (readonly [from: number, to: number])[];
}

/** What the file of a sheet asks for, from its XML. */
async function askedOf(book: Book, sheet: BookSheet): Promise<Asked> {
  const parts = unzipSync(await writeXlsx(book));
  const xml = strFromU8(parts[`xl/worksheets/sheet${book.sheets.indexOf(sheet) + 1}.xml`]!);
  const element = (tag: string) => new RegExp(`<${tag}\\b[^>]*>`).exec(xml)?.[0] ?? '';
  const attribute = (text: string, name: string) => new RegExp(`\\b${name}="([^"]*)"`).exec(text)?.[1];
  const breaks = (tag: string) => {
    const inside = new RegExp(`<${tag}\\b[^>]*>(.*?)</${tag}>`, 's').exec(xml)?.[1] ?? '';
    return [...inside.matchAll(/<brk\b[^>]*?\bid="(\d+)"/g)].map((found) => Number(found[1]));
  };
  const { row, column, rows, columns } = rectOf(sheet.print!.area);
  // A break is at the left of the column that its number, counted from 0, says; at the same time above that row.
  const parted = (first: number, last: number, at: readonly number[]) =>
    [first, ...at].map((from, i, all) => [from, (all[i + 1] ?? last + 1) - 1] as const);
  const titles = /_xlnm.Print_Titles"[^>]*>[^<]*!\$([A-Z]+):\$([A-Z]+)/.exec(
    strFromU8(parts['xl/workbook.xml']!),
  );
  const repeated = titles ? columnIndex(titles[2]!) + 1 : 0;
  return {
    isLandscape: attribute(element('pageSetup'), 'orientation') === 'landscape',
    scale: /fitToPage="(?:1|true)"/.test(xml) ? undefined : Number(attribute(element('pageSetup'), 'scale')),
    margins: Object.fromEntries(
      ['left', 'right', 'top', 'bottom'].map((side) => [
        side,
        Number(attribute(element('pageMargins'), side)),
      ]),
    ),
    pages: parted(column, column + columns - 1, breaks('colBreaks')).map(([from, to]) => [
      ...Array.from({ length: from > 0 ? repeated : 0 }, (_, i) => i),
      ...Array.from({ length: to - from + 1 }, (_, i) => from + i),
    ]),
    rows: parted(row, row + rows - 1, breaks('rowBreaks')),
  };
}

/** The widest and the highest page of a sheet at its size on the screen, in points. */
function sizeOf({ columns, rows }: BookSheet, { pages, rows: parts }: Asked) {
  const width = (page: readonly number[]) =>
    page.reduce((sum, at) => sum + columnWidth(columns[columnName(at)] ?? 8.43), 0);
  const height = ([from, to]: readonly [number, number]) =>
    Array.from({ length: to - from + 1 }, (_, i) => rows[String(from + i + 1)] ?? 15).reduce(
      (a, b) => a + b,
      0,
    );
  return { width: Math.max(...pages.map(width)), height: Math.max(...parts.map(height)) };
}

const BOOKS: Readonly<Record<string, () => Book>> = {
  run: () => bookOf([runPlan(SETUPS['tiled-everything']!, 'r1')]),
  ...EXAMPLES,
};

it.each(Object.entries(BOOKS))('%s is printed at 8 points or more on A4 and Letter', async (_, make) => {
  const book = make();
  const sheet = book.sheets.at(-1)!;
  const asked = await askedOf(book, sheet);
  const { width, height } = sizeOf(sheet, asked);
  for (const [paper, sides] of Object.entries(PAPERS)) {
    const [across, down] = asked.isLandscape ? [sides[1], sides[0]] : sides;
    const room = {
      width: across - 72 * (asked.margins.left! + asked.margins.right!),
      height: down - 72 * (asked.margins.top! + asked.margins.bottom!),
    };
    // Fitted on one page, or as the file says.
    const scale = asked.scale ?? Math.floor(100 * Math.min(1, room.width / width, room.height / height));
    expect((scale / 100) * FONT.size, paper).toBeGreaterThanOrEqual(LEAST_POINTS);
    expect((scale / 100) * width, `${paper}, width`).toBeLessThanOrEqual(room.width);
  }
});
