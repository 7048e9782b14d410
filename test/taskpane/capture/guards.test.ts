// @vitest-environment node
import { beforeAll, describe, expect, it } from 'vitest';
import { doubtsAbout } from '../../../taskpane/capture/guards/all';
import { arrange } from '../../../taskpane/capture/order';
import type { Step, Task } from '../../../taskpane/capture/task';
import { runTaskOf } from './scene';

/* Limits: domain rules of the trade, common practice: 3 × the neighbours' median, 1 % ambient, 2 % drift, three digits. */
let task: Task;
let tiled: Task;
beforeAll(async () => {
  task = await runTaskOf({ corners: true });
  tiled = await runTaskOf({ colour: 'tiled patterns' });
});

type Values = Readonly<Record<string, number | readonly [value: number, factor: number]>>;

/** What is asked and remarked about a number at a step, other cells being as given. */
function doubts(key: string, value: number, factor: number, others: Values = {}, of: Task = task) {
  const steps = arrange(of.groups, false).map((step): Step => {
    const given = others[step.key];
    if (given === undefined) return step;
    return typeof given === 'number'
      ? { ...step, value: given }
      : { ...step, value: given[0], factor: given[1] };
  });
  const step = steps.find((one) => one.key === key)!;
  return doubtsAbout({ task: of, step, value, factor, steps });
}
const kinds = (...args: Parameters<typeof doubts>) =>
  doubts(...args).map(({ kind, isQuestion }) => (isQuestion ? `${kind}?` : kind));

const W = (n: number) => `WhiteReadings/${Math.floor((n - 1) / 3)}/${(n - 1) % 3}`;
const GRID: Values = Object.fromEntries(
  [412, 430, 405, 441, 468, 437, 402, 428, 399].map((value, i) => [W(i + 1), value]),
);
const without = (key: string): Values => Object.fromEntries(Object.entries(GRID).filter(([k]) => k !== key));

describe('against its neighbours', () => {
  it.each([
    ['like them', 415, 1, []],
    ['just within three times', 1270, 1, []],
    ['four times', 1700, 1, ['outlier?']],
    ['a fourth', 105, 1, ['outlier?']],
    ['ten times', 4150, 1, ['range?']],
    ['a tenth', 41.5, 1, ['range?']],
    ['a tenth on the display in the range × 10', 415, 0.1, ['range?']],
    ['a tenth on the display, read in × 10', 41.5, 10, ['digits?', 'mixed']],
    ['a hundred times', 41_500, 1, ['range?']],
  ])('%s', (_what, value, factor, expected) => {
    expect(kinds(W(9), value, factor, without(W(9)))).toEqual(expected);
  });

  it('says by how much, and what would be noted', () => {
    const [doubt] = doubts(W(9), 4150, 1, without(W(9)));
    // The eight others in order: 402 405 412 428 430 437 441 468, median (428 + 430) ÷ 2 = 429; 4150 ÷ 429 = 9.7.
    expect(doubt!.message).toBe(
      '4150 × 1 is about 10 times its 8 neighbours, whose median is 429. Is the meter still in the range × 1? The keys + and − change it.',
    );
    expect(doubt!.note).toBe('white, bottom right (point 9): 4150 × 1 kept, about 10 times its neighbours');
  });

  it('with one neighbour only it says which', () => {
    expect(doubts(W(2), 43, 1, { [W(1)]: 412 })[0]!.message).toContain(
      'about a tenth of the one before (white, top left (point 1))',
    );
  });

  it('tiles are compared with tiles of their colour, not with their pattern', () => {
    const red = { 'PatternA/0/0': 100, 'PatternA/0/1': 700, 'PatternA/0/2': 60 };
    expect(kinds('PatternA/1/2', 104, 1, red, tiled)).toEqual([]);
    // 700 would be like its green neighbour; the one red one says 7 times. Nearer to ten than to one: a slip is likely.
    const [doubt] = doubts('PatternA/1/2', 700, 1, red, tiled);
    expect(doubt).toMatchObject({ kind: 'range', isQuestion: true });
    expect(doubt!.message).toContain(
      '700 × 1 is 7 times the one before (pattern A, red tile, top left (point 1))',
    );
  });

  it('neighbours of 0 are no measure', () => {
    expect(kinds('BlackReadings/0/1', 1, 1, { 'BlackReadings/0/0': 0 })).toEqual([]);
  });

  it('nothing is compared at the first reading of a run', () => {
    expect(kinds(W(1), 412, 1)).toEqual([]);
  });
});

describe('the field on the screen', () => {
  it('more red than white at the same point', () => {
    expect(kinds('RedReadings/0/0', 450, 1, GRID)).toEqual(['field?']);
    expect(kinds('RedReadings/0/0', 150, 1, GRID)).toEqual([]);
  });
  it('black as bright as white', () => {
    expect(kinds('BlackReadings/0/0', 300, 1, GRID)).toEqual(['field?']);
    expect(kinds('BlackReadings/0/0', 3, 1, GRID)).toEqual([]);
  });
});

describe('the display', () => {
  it('a lone 1 is over range on many meters, except where it is dark', () => {
    expect(kinds(W(1), 1, 1)).toEqual(['lone-one?']);
    expect(kinds('AmbientReadings/0/0', 1, 1)).toEqual([]);
  });

  it.each([
    ['two digits in a higher range', 45, 10, ['digits?']],
    ['two digits in the lowest range', 45, 1, ['digits']],
    ['three digits', 145, 10, []],
  ])('%s', (_what, value, factor, expected) => {
    expect(kinds(W(1), value, factor)).toEqual(expected);
  });

  it('few digits in the lowest range are said once a field, and not of dark ones', () => {
    expect(kinds('BlueReadings/0/1', 45, 1, { 'BlueReadings/0/0': 44 })).toEqual([]);
    expect(kinds('BlackReadings/0/0', 3, 1)).toEqual([]);
  });

  it('another range than the readings before it is remarked', () => {
    expect(kinds(W(3), 41.4, 10, { [W(1)]: 412, [W(2)]: 430 }, { ...task, digit: 0.1 })).toEqual(['mixed']);
    expect(kinds(W(3), 41.4, 10, { [W(1)]: 412, [W(2)]: [43, 10] }, { ...task, digit: 0.1 })).toEqual([]);
  });
});

describe('ambient light', () => {
  const dark = { 'AmbientReadings/0/0': 5 };
  it('over 1 % of the first white reading is said, over 1 % of their mean is asked', () => {
    expect(kinds(W(1), 412, 1, dark)).toEqual(['ambient']);
    expect(kinds(W(2), 430, 1, { ...dark, [W(1)]: 412 })).toEqual([]);
    expect(kinds(W(9), 399, 1, { ...dark, ...without(W(9)) })).toEqual(['ambient?']);
    // Mean white 424.7: 1 % is 4.25.
    expect(kinds(W(9), 399, 1, { 'AmbientReadings/0/0': 4, ...without(W(9)) })).toEqual([]);
  });
  it('read again afterwards it is asked at once', () => {
    expect(doubts('AmbientReadings/0/0', 6, 1, GRID)[0]!.note).toBe('1.4 % of white is ambient light, kept');
  });
});

describe('the closing reading', () => {
  const all = Object.fromEntries(
    ['Red', 'Green', 'Blue', 'Black'].flatMap((stem) =>
      Array.from({ length: 9 }, (_, i) => [`${stem}Readings/${Math.floor(i / 3)}/${i % 3}`, 100]),
    ),
  );
  const corners = Object.fromEntries(['0/0', '0/1', '1/0', '1/1'].map((at) => [`CornerReadings/${at}`, 400]));
  const rest: Values = { ...GRID, ...all, ...corners, 'AmbientReadings/0/0': 1 };
  const last = 'LastReading/0/0';

  it.each([
    ['the same', 468, 1, []],
    ['1.9 % less', 459.2, 1, []],
    ['2.1 % less', 458.1, 1, ['drift?']],
    // 468 with 1 of ambient light is 467 of light: 2 % of that is 9.34, so 458.66 is the least.
    ['2 % less of the light alone', 458.65, 1, ['drift?']],
    ['a tenth: the range, not drift', 46.8, 1, ['range?']],
    ['in another range', 46.8, 10, ['digits?']],
  ])('%s', (_what, value, factor, expected) => {
    expect(kinds(last, value, factor, rest)).toEqual(expected);
  });

  it('before the others it is questioned, and after it others are remarked', () => {
    const { 'RedReadings/2/2': _open, ...others } = rest as Record<string, number>;
    expect(doubts(last, 468, 1, others)[0]!.message).toMatch(/closing reading, and 1 reading is still open/);
    expect(kinds('RedReadings/2/2', 100, 1, { ...others, [last]: 468 })).toEqual(['order']);
  });
});
