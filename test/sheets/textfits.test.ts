import { expect, it } from 'vitest';
import { calculateAll } from '../../src/audit/formula/calculate';
import { cellName, cellsOf, rectOf } from '../../src/sheets/address';
import type { Book, BookSheet } from '../../src/sheets/book';
import { exampleBook } from '../../src/sheets/example';
import { PLAIN_ONLY } from '../../src/sheets/phrases/agree';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { FONT } from '../../src/sheets/style';
import { EXAMPLES } from '../audit/examples';
import { SETUPS } from './setups';
import { columnWidth, linesOf, textWidth } from './textwidth';

/*
 * No text is cut off: held against the widths of the font's letters. Common practice of spreadsheet programs: a text
 * that does not wrap runs into empty cells beside it, one that wraps in merged cells needs a row that was made high
 * enough, and other rows grow by themselves. A slack of one letter is left to the programs.
 */
const SLACK = 6;
/** Height of a row that nobody set, and of a line, in points (Calibri 11). */
const ROW = 15;
const lineHeight = (size: number) => size * 1.22;
const WIDTH = 8.43;

interface Cut {
  readonly at: string;
  readonly text: string;
  readonly needs: string;
}

function cutIn(sheet: BookSheet): Cut[] {
  const merges = new Map(sheet.merges.flatMap((range) => cellsOf(range).map((at) => [at, range] as const)));
  const width = (column: number) =>
    columnWidth(sheet.columns[cellName(0, column).replace(/\d+/, '')] ?? WIDTH);
  const height = (row: number) => sheet.rows[String(row + 1)];
  const isEmpty = (row: number, column: number) => {
    const at = cellName(row, column);
    const cell = sheet.cells[at];
    const isBlank = !cell || ((cell.value === null || cell.value === '') && cell.formula === undefined);
    return isBlank && !merges.has(at);
  };
  return Object.entries(sheet.cells).flatMap(([at, { value, formula, style = {} }]): Cut[] => {
    if (typeof value !== 'string' || value === '' || style.format === ';;;') return [];
    // What people type is as long as they like; of a ticket the first digits tell.
    if (style.locked === false || /^[0-9a-f]{64}$/.test(value)) return [];
    const range = merges.get(at) ?? at;
    if (cellsOf(range)[0] !== at) return [];
    const { row, column, rows, columns } = rectOf(range);
    const size = style.size ?? FONT.size;
    let room = SLACK;
    for (let c = column; c < column + columns; c++) room += width(c);
    // What an agreement says without the add-in fits one line: no program makes the row higher then.
    if (formula?.includes(`"${PLAIN_ONLY}"`) && textWidth(PLAIN_ONLY, size, style.bold) > room)
      return [{ at, text: PLAIN_ONLY, needs: `more than ${room.toFixed(0)} points across` }];
    if (style.wrap) {
      const lines = linesOf(value, room, size, style.bold);
      const longest = Math.max(...value.split(/[\s-]+/).map((word) => textWidth(word, size, style.bold)));
      const set = Array.from({ length: rows }, (_, r) => height(row + r));
      // Rows of single cells grow unless they were set.
      const high = set.reduce<number>((sum, each) => sum + (each ?? ROW), 0);
      const grows = range === at && set[0] === undefined;
      const needed = lines * lineHeight(size);
      if (longest > room && columns === 1) return [{ at, text: value, needs: 'a wider column for one word' }];
      return grows || needed <= high + 3
        ? []
        : [{ at, text: value, needs: `${needed.toFixed(0)} of ${high} points` }];
    }
    const needed = textWidth(value, size, style.bold);
    if (range === at && rows === 1) {
      const step = style.align === 'right' ? -1 : 1;
      if (style.align !== 'center')
        for (let c = column + step; c >= 0 && c < column + 20 && isEmpty(row, c) && room < needed; c += step)
          room += width(c);
    }
    return needed <= room
      ? []
      : [{ at, text: value, needs: `${needed.toFixed(0)} of ${room.toFixed(0)} points across` }];
  });
}

const BOOKS: Readonly<Record<string, () => Book>> = {
  ...EXAMPLES,
  ...Object.fromEntries(
    Object.entries(SETUPS).map(([name, setup]) => [`run, ${name}`, () => bookOf([runPlan(setup, 'r1')])]),
  ),
  'the example': () => {
    let ids = 0;
    return exampleBook(() => `e${ids++}`);
  },
};

it.each(Object.entries(BOOKS))('no text is cut off: %s', (_, make) => {
  const cut = calculateAll(make().sheets).flatMap((sheet) =>
    cutIn(sheet).map(({ at, text, needs }) => `${sheet.name} ${at}: ${needs}: ${text}`),
  );
  expect(cut).toEqual([]);
});
