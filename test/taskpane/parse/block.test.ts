// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { CHECKER, NINE } from '../../../src/photometry/reading';
import type { CellName } from '../../../src/sheets/names/all';
import { isReady, type Pasted, readBlock } from '../../../taskpane/parse/block';
import type { BlockTarget } from '../../../taskpane/parse/target';

const target = (label: string, extra: Partial<BlockTarget> = {}): BlockTarget => ({
  label,
  name: `${label}Readings` as CellName,
  shape: NINE,
  zero: 'missing',
  ...extra,
});
const WHITE = [target('white')];
const FOUR = ['white', 'red', 'green', 'blue'].map((label) => target(label));

/** The numbers of one block, row by row; other kinds by their name. */
function cells({ blocks }: Pasted, block = 0): (number | string)[][] {
  return blocks[block]!.entries.map((row) =>
    row.map((entry) => (entry.kind === 'number' ? entry.value : entry.kind)),
  );
}

const NINE_TYPED = [
  [248, 251, 249],
  [255, 262, 257],
  [246, 250, 247],
];

/** One grid, however it is written. CSV rules: RFC 4180; semicolons and decimal commas: common practice. */
const WRITTEN: readonly (readonly [how: string, text: string])[] = [
  ['tabs', '248\t251\t249\n255\t262\t257\n246\t250\t247'],
  ['tabs, Windows line ends and a last one', '248\t251\t249\r\n255\t262\t257\r\n246\t250\t247\r\n'],
  ['commas', '248,251,249\n255,262,257\n246,250,247\n'],
  ['commas and spaces', '248, 251, 249\n255, 262, 257\n246, 250, 247'],
  ['semicolons', '248;251;249\n255;262;257\n246;250;247'],
  ['quoted', '"248","251","249"\n"255","262","257"\n"246","250","247"'],
  ['spaces', '248 251 249\n 255  262 257\n246 250 247'],
  ['one column', '248\n251\n249\n255\n262\n257\n246\n250\n247\n'],
  ['one row', '248\t251\t249\t255\t262\t257\t246\t250\t247'],
  ['one row of commas', '248,251,249,255,262,257,246,250,247'],
  ['headings', 'left\tcentre\tright\n248\t251\t249\n255\t262\t257\n246\t250\t247'],
  ['unit in every cell', '248 lx\t251 lx\t249 lx\n255 lx\t262 lx\t257 lx\n246 lx\t250 lx\t247 lx'],
];

describe('nine readings', () => {
  it.each(WRITTEN)('with %s', (_, text) => {
    const pasted = readBlock(text, WHITE, 'lx');
    expect(pasted.problems).toEqual([]);
    expect(cells(pasted)).toEqual(NINE_TYPED);
    expect(isReady(pasted)).toBe(true);
  });

  it('says how a column was read', () => {
    const { how } = readBlock(WRITTEN[7]![1], WHITE, 'lx');
    expect(how.join(' ')).toContain('One column of 9, read row by row from top left');
  });

  it.each([
    ['one column', '24,8\n25,1\n24,9\n25,5\n26,2\n25,7\n24,6\n25,0\n24,7'],
    ['semicolons', '24,8;25,1;24,9\n25,5;26,2;25,7\n24,6;25,0;24,7'],
    ['quoted commas', '"24,8","25,1","24,9"\n"25,5","26,2","25,7"\n"24,6","25,0","24,7"'],
    ['commas and spaces', '24,8, 25,1, 24,9\n25,5, 26,2, 25,7\n24,6, 25,0, 24,7'],
  ])('with decimal commas and %s', (_, text) => {
    expect(cells(readBlock(text, WHITE, 'lx'))).toEqual([
      [24.8, 25.1, 24.9],
      [25.5, 26.2, 25.7],
      [24.6, 25, 24.7],
    ]);
  });
});

describe('several blocks at once', () => {
  const values = FOUR.map((_, block) => Array.from({ length: 9 }, (_, i) => 100 * (block + 1) + i));
  const rows = (flat: readonly number[]) => [flat.slice(0, 3), flat.slice(3, 6), flat.slice(6)];
  const text = (grid: readonly (readonly (number | string)[])[]) =>
    grid.map((row) => row.join('\t')).join('\n');
  it.each([
    ['one below another', text(values.flatMap(rows))],
    ['with empty rows between', text(values.flatMap((flat) => [...rows(flat), ['', '', '']]).slice(0, -1))],
    ['side by side', text([0, 1, 2].map((r) => values.flatMap((flat) => rows(flat)[r]!)))],
    ['one row a block', text(values)],
    ['one column a block', text(Array.from({ length: 9 }, (_, i) => values.map((flat) => flat[i]!)))],
    ['one column', text(values.flat().map((n) => [n]))],
    ['one row', text([values.flat()])],
  ])('%s', (_, pasted) => {
    const read = readBlock(pasted, FOUR, 'lx');
    expect(read.problems).toEqual([]);
    expect(read.blocks.map((_, i) => cells(read, i).flat())).toEqual(values);
  });

  it('takes a 4 \u00d7 4 board', () => {
    const board = [target('checkerboard', { shape: CHECKER, zero: 'reading' })];
    const read = readBlock('90\t2\t91\t2\n2\t92\t2\t90\n91\t2\t90\t0\n2\t90\t2\t91', board, 'lx');
    expect(cells(read)[2]).toEqual([91, 2, 90, 0]);
    expect(isReady(read)).toBe(true);
  });
});

/* A hand-held meter's memory: number, day, time, reading. The order is that of guided capture, row by row. */
describe('a meter’s own log', () => {
  const log = (readings: readonly (number | string)[]) =>
    readings.map((value, i) => `${i + 1};25.11.2026;14:0${i % 10}:00;${value}`).join('\n');
  const one = { rows: 1, columns: 1, names: ['any place'], word: 'reading', first: 1 } as const;
  const RUN = [
    target('ambient', { shape: one, zero: 'reading' }),
    target('white'),
    target('last white', { shape: one }),
  ];
  const readings = Array.from({ length: 11 }, (_, i) => 100 + i);

  it('fills one field, or everything in the order of measuring', () => {
    const single = readBlock(`Number;Date;Time;Value\n${log(readings.slice(1, 10))}`, WHITE, 'lx');
    expect(single.problems).toEqual([]);
    expect(single.how).toContain('The meter’s own log: the readings stand in column 4, one a line.');
    expect(cells(single).flat()).toEqual(readings.slice(1, 10));
    const run = readBlock(log(readings), RUN, 'lx');
    expect(run.problems).toEqual([]);
    expect(run.blocks.map((_, i) => cells(run, i).flat())).toEqual([[100], readings.slice(1, 10), [110]]);
    expect(isReady(run)).toBe(true);
  });

  it('walked there and back, every second row comes from the right', () => {
    const run = readBlock(log(readings), RUN, 'lx', { turn: 'there and back' });
    expect(run.isSequence).toBe(true);
    expect(cells(run, 1)).toEqual([
      [101, 102, 103],
      [106, 105, 104],
      [107, 108, 109],
    ]);
  });

  it('with a reading too few says what was wanted in which order', () => {
    expect(readBlock(log(readings.slice(1)), RUN, 'lx').problems).toEqual([
      'Expected 11 readings in one row or column, in the order of measuring: ambient 1, white 9, last white 1. What came has 10 rows and 4 columns.',
    ]);
  });

  it('is no log where two columns could be the readings', () => {
    const text = Array.from({ length: 9 }, (_, i) => `${i + 1};14:00;${200 + 3 * i};${300 + 7 * i}`).join(
      '\n',
    );
    expect(readBlock(text, WHITE, 'lx').problems[0]).toMatch(/has 9 rows and 4 columns/);
  });
});

describe('a block that cannot be written', () => {
  it('names row, column, place, what was expected and what came, for every cell at once', () => {
    const { problems } = readBlock('248\tabc\t249\n-5\t262\t#N/A\n246\t0\t900000', WHITE, 'lx');
    expect(problems).toEqual([
      'Row 1, column 2, white reading at top centre (point 2): expected a number in lx, came \u201cabc\u201d.',
      'Row 2, column 1, white reading at middle left (point 4): expected a number of at least 0, came \u201c-5\u201d.',
      'Row 2, column 3, white reading at middle right (point 6): expected a number in lx, came the error #N/A.',
      'Row 3, column 2, white reading at bottom centre (point 8): expected a reading above 0, or an empty cell if it was not taken, came \u201c0\u201d.',
      'Row 3, column 3, white reading at bottom right (point 9): expected at most 200000 lx, came \u201c900000\u201d.',
    ]);
  });

  it('names both shapes', () => {
    const { problems } = readBlock('1\t2\t3\t4\n1\t2\t3\t4\n1\t2\t3\t4', WHITE, 'lx');
    expect(problems).toEqual([
      'Expected 3 \u00d7 3 readings, or 9 in one row or column. What came has 3 rows and 4 columns.',
    ]);
  });

  it('says what to do with the readings of one field where several were expected', () => {
    const one = readBlock('1\t2\t3\n4\t5\t6\n7\t8\t9', FOUR, 'lx').problems[0];
    expect(one).toMatch(/has 3 rows and 3 columns\. Readings of one field alone: choose that field above\.$/);
    expect(readBlock('1\t2\t3\t4', FOUR, 'lx').problems[0]).toMatch(/has 1 row and 4 columns\.$/);
  });

  it('refuses another unit than the meter\u2019s and converts nothing', () => {
    const { problems, blocks } = readBlock('23\n24\n23\n24\n25 fc\n24\n23\n24\n23', WHITE, 'lx');
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain('expected lx, the meter\u2019s unit on this sheet, came \u201c25 fc\u201d');
    expect(blocks[0]!.entries[1]![1]!.kind).toBe('refused');
    expect(readBlock('23\n24\n23\n24\n25 fc\n24\n23\n24\n23', WHITE, 'fc').problems).toEqual([]);
  });

  it('is nothing, or far too much', () => {
    expect(readBlock('', WHITE, 'lx').problems).toEqual(['Nothing has been pasted yet.']);
    expect(readBlock('1\n'.repeat(20_000), WHITE, 'lx').problems[0]).toContain('far more text');
    expect(isReady(readBlock('\t\t\n\t\t\n\t\t', WHITE, 'lx'))).toBe(false);
  });
});

describe('over range', () => {
  it.each(['over', 'OL', 'O.L.', 'over range', 'Over-range', '1.', '1 .'])('%j stays over range', (word) => {
    expect(cells(readBlock(`248\n${word}\n249\n255\n262\n257\n246\n250\n247`, WHITE, 'lx'))[0]![1]).toBe(
      'over',
    );
  });

  /** A lone 1 at the left edge is the over-range sign of many meters: common practice. */
  it('questions a lone 1 among hundreds', () => {
    const text = '248\n1\n249\n255\n262\n257\n246\n250\n247';
    const asked = readBlock(text, WHITE, 'lx');
    expect(asked.questions.map(({ asks }) => asks)).toEqual(['ones']);
    expect(asked.questions[0]!.message).toContain('white reading at top centre (point 2)');
    expect(isReady(asked)).toBe(false);
    expect(cells(readBlock(text, WHITE, 'lx', { ones: 'over range' }))[0]![1]).toBe('over');
    expect(cells(readBlock(text, WHITE, 'lx', { ones: 'number' }))[0]![1]).toBe(1);
  });

  it('does not question a 1 among its like', () => {
    expect(readBlock('1\n2\n1\n1\n3\n2\n1\n1\n2', WHITE, 'lx').questions).toEqual([]);
  });
});

describe('a decimal or a thousand', () => {
  const text = '1.234\n1.251\n1.249\n1.255\n1.262\n1.257\n1.246\n1.250\n1.247';

  it('is asked once for the whole block, with both readings offered', () => {
    const asked = readBlock(text, WHITE, 'lx');
    expect(asked.questions).toHaveLength(1);
    expect(asked.questions[0]!.answers.map(({ label }) => label)).toEqual([
      '1.234: the point is the decimal mark',
      '1234: the comma is the decimal mark',
    ]);
    expect(isReady(asked)).toBe(false);
    expect(cells(readBlock(text, WHITE, 'lx', { mark: 'comma' }))[0]).toEqual([1234, 1251, 1249]);
    expect(cells(readBlock(text, WHITE, 'lx', { mark: 'point' }))[0]).toEqual([1.234, 1.251, 1.249]);
  });

  it('offers the program\u2019s own decimal mark first', () => {
    expect(readBlock(text, WHITE, 'lx', {}, true).questions[0]!.answers[0]!.decision).toEqual({
      mark: 'comma',
    });
  });

  it('is settled by a neighbour that shows the mark, and says so', () => {
    const pasted = readBlock(text.replace('1.251', '1.251,5'), WHITE, 'lx');
    expect(pasted.questions).toEqual([]);
    expect(cells(pasted)[0]).toEqual([1234, 1251.5, 1249]);
    expect(pasted.how.join(' ')).toContain('The comma is the decimal mark, as in \u201c1.251,5\u201d');
  });

  it('is still asked where neighbours contradict each other', () => {
    const mixed = text.replace('1.251', '12,5').replace('1.249', '12.5');
    expect(readBlock(mixed, WHITE, 'lx').questions).toHaveLength(1);
  });
});

it('keeps an empty cell empty', () => {
  const pasted = readBlock('248\t\t249\n255\t262\t257\n246\t250\t247', WHITE, 'lx');
  expect(cells(pasted)[0]).toEqual([248, 'empty', 249]);
  expect(isReady(pasted)).toBe(true);
});
