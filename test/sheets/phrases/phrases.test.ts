import { describe, expect, it } from 'vitest';
import { calculate } from '../../../src/audit/formula/calculate';
import { verdictAbove } from '../../../src/metrology/decision';
import { DECISION_RULES, ruleOf } from '../../../src/metrology/rules';
import { isOverRange, OVER_RANGE_SIGNS } from '../../../src/photometry/overrange';
import {
  type Book,
  type BookCell,
  type BookSheet,
  type CellValue,
  EMPTY_SHEET,
} from '../../../src/sheets/book';
import { agreement, isSameNumber, sameNumbers } from '../../../src/sheets/phrases/agree';
import { decidedBy, decidedByValue, decidedInFour } from '../../../src/sheets/phrases/decision';
import { isOverRangeCell, overRangeCount } from '../../../src/sheets/phrases/overrange';
import { writeXlsx } from '../../../src/xlsx/write';
import { recalculate } from '../../tools/libreoffice';
import { createTestHost } from '../../workbench/client';

/*
 * Each phrase that formulas share says what its twin in code says: recalculated by LibreOffice from the typed cells
 * alone, and by the two calculators of our own.
 */

/** What can stand in a cell where a reading is expected. */
const TEXTS: readonly CellValue[] = [
  ...OVER_RANGE_SIGNS,
  ...['OVER', 'Over Range', ' over ', 'over  range', 'O.L.', 'OL', 'OR', '0L', ' 1.', '1  .', '1 ,'],
  ...[
    'off',
    'o',
    'open',
    'overall',
    'over|ol',
    'on',
    '1',
    '1.0',
    '1 lx',
    '..1',
    '10.',
    '11.',
    '1.1',
    '|',
    '',
    ' ',
  ],
  ...[1, 0, 12.5, 10, true, false, null],
];

/** Values about the limit, with and without room for rounding. */
const MEASURED = [70, 79.999, 80, 84.999, 85, 90, 74.999, 75].flatMap((y) => [
  [y, 80, 5] as const,
  [y, 80, 0] as const,
]);

/** Numbers and how far they are apart, and the texts of results that wait. */
const PAIRS: readonly (readonly [CellValue, CellValue])[] = [
  ...[1, 2500, 1e-6, -3, 1e12].flatMap((size) =>
    [0, 0.5e-8, 0.99e-8, 1.01e-8, 1e-6, 0.1].map((part) => [size * (1 + part), size] as const),
  ),
  [2e-16, 0],
  [1.1e-12, 0],
  [0, 0],
  ['7 of 9', '7 of 9'],
  ['pass', 'pass'],
  ['pass', 'fail'],
  [1, 'waiting'],
];

interface Asked {
  readonly cells: readonly CellValue[];
  readonly formula: (...at: readonly string[]) => string;
  readonly expected: CellValue;
}

const isPass = (cell: string) => `LEFT(${cell},4)="pass"`;
function saidOf(own: CellValue, other: CellValue): string {
  if (typeof own === 'number' && typeof other === 'number')
    return isSameNumber(own, other) ? 'agree' : 'differ';
  if (own !== other) return 'differ';
  return String(own).startsWith('pass') ? 'agree' : 'waiting';
}

const ASKED: readonly Asked[] = [
  ...TEXTS.flatMap((text): Asked[] => [
    { cells: [text], formula: (at) => isOverRangeCell(at!), expected: isOverRange(text) },
    {
      cells: [text, 'over'],
      formula: (a, b) => overRangeCount(`${a}:${b}`),
      expected: isOverRange(text) ? 2 : 1,
    },
  ]),
  ...MEASURED.flatMap(([y, limit, U]): Asked[] => [
    ...DECISION_RULES.map((rule): Asked => {
      const { guard, outcomes } = ruleOf(rule);
      const w = guard.kind === 'none' ? 0 : U;
      return {
        cells: [rule, y, limit, U],
        formula: (...at) => decidedBy(...(at as [string, string, string, string])),
        expected: verdictAbove(y, limit, w, outcomes),
      };
    }),
    {
      cells: [y, limit],
      formula: (a, b) => decidedByValue(a!, b!),
      expected: verdictAbove(y, limit, 0, 'two'),
    },
    {
      cells: [y, limit, U],
      formula: (a, b, c) => decidedInFour(a!, b!, c!),
      expected: verdictAbove(y, limit, U, 'four'),
    },
  ]),
  ...PAIRS.flatMap(([own, other]): Asked[] => [
    ...(typeof own === 'number' && typeof other === 'number'
      ? [
          {
            cells: [own, other],
            formula: (...at: readonly string[]) => sameNumbers(at[0]!, at[1]!),
            expected: isSameNumber(own, other),
          },
        ]
      : []),
    {
      cells: [own, other],
      formula: (a, b) => agreement(a!, b!, { results: isPass, idle: 'waiting' }),
      expected: saidOf(own, other),
    },
  ]),
  // Without the add-in a function's cell is an error.
  { cells: [5], formula: (a) => agreement('1/0', a!), expected: 'plain formula only' },
  { cells: ['7 of 9'], formula: (a) => agreement('1/0', a!), expected: 'see left' },
  {
    cells: ['pass'],
    formula: (a) => agreement('1/0', a!, { results: isPass }),
    expected: 'plain formula only',
  },
  { cells: ['A'], formula: (a) => agreement('1/0', a!, { results: 'all' }), expected: 'plain formula only' },
];

const columnOf = (i: number) => 'BCDE'[i]!;
const sheet: BookSheet = {
  ...EMPTY_SHEET,
  name: 'Phrases',
  cells: Object.fromEntries(
    ASKED.flatMap(({ cells, formula }, r): [string, BookCell][] => [
      ...cells.map((value, c): [string, BookCell] => [
        `${columnOf(c)}${r + 1}`,
        { value, ...(typeof value === 'string' ? { style: { format: '@' } } : {}) },
      ]),
      [
        `A${r + 1}`,
        { value: null, formula: `=${formula(...cells.map((_, c) => `${columnOf(c)}${r + 1}`))}` },
      ],
    ]),
  ),
};
const book: Book = { sheets: [sheet], names: [] };

function wrong(cells: Readonly<Record<string, BookCell | undefined>>): string[] {
  return ASKED.flatMap(({ cells: typed, expected }, r) => {
    const came = cells[`A${r + 1}`]?.value ?? '';
    return came === expected ? [] : [`${JSON.stringify(typed)}: ${JSON.stringify(came)} for ${expected}`];
  });
}

describe('the phrases that formulas share', () => {
  it('LibreOffice says what the code says', async () => {
    const [there] = await recalculate([await writeXlsx(book, { cachedValues: false })]);
    expect(wrong(there!.sheets[0]!.cells)).toEqual([]);
  }, 120_000);

  it('so does the check', () => {
    expect(wrong(calculate(sheet).cells)).toEqual([]);
  });

  it('so does the embedded engine', async () => {
    const { workbench } = createTestHost();
    await workbench.fromBook(book);
    expect(wrong((await workbench.toBook()).sheets[0]!.cells)).toEqual([]);
  }, 60_000);
});
