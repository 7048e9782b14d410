// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { arrange, isOpen, nextOpen, stateOf, stepBy } from '../../../taskpane/capture/order';
import { prompt } from '../../../taskpane/capture/prompt';
import { type Step, stepWords, type Task, tapeOf } from '../../../taskpane/capture/task';
import { runTaskOf, spotTaskOf } from './scene';

const groups = (task: Task) => task.groups.map(({ label, steps }) => `${label} ${steps.length}`);

describe('the order of readings', () => {
  it('ambient, white, colours, black, last', async () => {
    expect(groups(await runTaskOf())).toEqual([
      'ambient 1',
      'white 9',
      'red 9',
      'green 9',
      'blue 9',
      'black 9',
      'last white 1',
    ]);
  });

  it('patterns in place of colours, with corners, board and ambient at nine points', async () => {
    const task = await runTaskOf({
      colour: 'tiled patterns',
      corners: true,
      checkerboard: true,
      ambient: 'nine points',
    });
    expect(groups(task)).toEqual([
      'ambient 9',
      'white 9',
      'pattern A 9',
      'pattern B 9',
      'pattern C 9',
      'black 9',
      'corner 4',
      'checkerboard 16',
      'last white 1',
    ]);
  });

  it('repeats behind the first time of their field, in its ranges', async () => {
    const task = await runTaskOf({ repeats: 3, black: false, colour: 'none' });
    expect(groups(task)).toEqual([
      'ambient 1',
      'white 9',
      'white repeat 2 9',
      'white repeat 3 9',
      'last white 1',
    ]);
    const repeat = task.groups[2]!.steps[4]!;
    expect(repeat).toMatchObject({
      at: { name: 'WhiteRepeat2', row: 1, column: 1 },
      rangeAt: { name: 'WhiteRange', row: 1, column: 1 },
      isRangeShared: true,
      field: 'white',
    });
  });

  it('no ambient where none is measured', async () => {
    expect(groups(await runTaskOf({ ambient: 'none', colour: 'none', black: false }))).toEqual([
      'white 9',
      'last white 1',
    ]);
  });

  it('serpentine: every second row from right to left, and nothing else moved', async () => {
    const { groups: all } = await runTaskOf();
    const white = (serpentine: boolean) =>
      arrange(all, serpentine)
        .filter(({ group }) => group === 'WhiteReadings')
        .map(({ number }) => number);
    expect(white(false)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(white(true)).toEqual([1, 2, 3, 6, 5, 4, 7, 8, 9]);
    expect(new Set(arrange(all, true))).toEqual(new Set(arrange(all, false)));
  });
});

describe('where a reading belongs', () => {
  it('each to a cell of its own, with its range factor', async () => {
    const task = await runTaskOf({ corners: true, checkerboard: true });
    const steps = arrange(task.groups, false);
    expect(new Set(steps.map(({ key }) => key)).size).toBe(steps.length);
    const board = steps.filter(({ group }) => group === 'BoardReadings');
    expect(new Set(board.map(({ rangeAt }) => `${rangeAt.name}/${rangeAt.row}/${rangeAt.column}`))).toEqual(
      new Set(['BoardRange/0/0']),
    );
  });

  it('to the field on the screen: tiles by pattern, the board by its top left tile', async () => {
    const task = await runTaskOf({ colour: 'tiled patterns', checkerboard: true });
    const at = (key: string) => arrange(task.groups, false).find((step) => step.key === key)!;
    // Ours: tile in row r, column c of pattern p shows primary (r + c + p) mod 3 of red, green, blue.
    expect(at('PatternA/0/0')).toMatchObject({ field: 'pattern-a', light: 'red', peers: 'red' });
    expect(at('PatternB/0/0')).toMatchObject({ field: 'pattern-b', light: 'green' });
    expect(at('PatternC/2/2')).toMatchObject({ field: 'pattern-c', light: 'red' });
    expect(stepWords(at('PatternC/2/2'))).toBe('pattern C, red tile, bottom right (point 9)');
    expect(at('BoardReadings/0/0')).toMatchObject({ field: 'board', light: 'white', peers: 'board white' });
    expect(at('BoardReadings/0/1')).toMatchObject({ light: 'black' });
  });

  it('in centimetres from the left and the top edge', async () => {
    const task = await runTaskOf({ corners: true });
    const at = (key: string) => tapeOf(arrange(task.groups, false).find((step) => step.key === key)!, task);
    // 1.92 × 1.2 m: the nine points at sixths, the corner points at 5 % of width and height.
    expect(at('WhiteReadings/0/0')!.left).toBeCloseTo(32, 9);
    expect(at('WhiteReadings/0/0')!.top).toBeCloseTo(20, 9);
    expect(at('WhiteReadings/1/2')!.left).toBeCloseTo(160, 9);
    expect(at('CornerReadings/1/1')!.left).toBeCloseTo(182.4, 9);
    expect(at('CornerReadings/1/1')!.top).toBeCloseTo(114, 9);
    expect(at('AmbientReadings/0/0')).toBeUndefined();
  });

  it('in a sentence', async () => {
    const task = await runTaskOf();
    const step = arrange(task.groups, false)[5]!;
    expect(prompt(step, task, 41)).toBe(
      'White, point 5, middle centre. 96.0 cm from the left, 60.0 cm from the top. 41 left.',
    );
  });
});

describe('what comes next', () => {
  const step = (key: string, value: Step['value'], group = 'a') =>
    ({ key, value, group, zero: 'missing' }) as Step;
  const isClosing = ({ group }: Step) => group === 'last';
  const next = (steps: readonly Step[], key?: string) => nextOpen(steps, isClosing, key)?.key;

  it('the next open one, then the ones left open, and the closing one after all', () => {
    const steps = [step('1', null), step('2', 5), step('3', null), step('4', null, 'last')];
    expect(next(steps)).toBe('1');
    expect(next(steps, '1')).toBe('3');
    expect(next(steps, '3')).toBe('1');
    const taken = [step('1', 4), step('2', 5), step('3', 6), step('4', null, 'last')];
    expect(next(taken, '3')).toBe('4');
    expect(next([...taken.slice(0, 3), step('4', 7, 'last')], '4')).toBeUndefined();
  });

  it('counts over range, 0 in a lit field and what is no reading as open', () => {
    expect(
      [null, 'over', 0, 'x', { error: '#N/A' as const }, 4].map((value) => isOpen(step('', value))),
    ).toEqual([true, true, true, true, true, false]);
    expect(isOpen({ value: 0, zero: 'reading' })).toBe(false);
    expect([null, 'over', 'x', 4].map((value) => stateOf(step('', value)))).toEqual([
      'open',
      'over',
      'unreadable',
      'taken',
    ]);
  });

  it('steps stop at either end', () => {
    const steps = [step('1', null), step('2', null)];
    expect(stepBy(steps, '1', -1)?.key).toBe('1');
    expect(stepBy(steps, '1', 1)?.key).toBe('2');
    expect(stepBy(steps, '2', 1)?.key).toBe('2');
  });
});

describe('a spot check', () => {
  const setup = {
    title: '',
    units: ['Branch A', 'Branch B', 'Branch C'],
    reference: 'first',
    ambient: true,
    place: 'Workshop (invented)',
    measuredBy: '',
    date: '',
    meter: defaultRunSetup().meter,
  } as const;

  it('goes unit by unit, white, red, green, blue at the centre', async () => {
    const task = await spotTaskOf(setup);
    expect(groups(task)).toEqual(['ambient 1', 'Branch A 4', 'Branch B 4', 'Branch C 4']);
    expect(task.groups[2]!.steps.map(({ light, key }) => `${light} ${key}`)).toEqual([
      'white WhiteReadings/1/0',
      'red RedReadings/1/0',
      'green GreenReadings/1/0',
      'blue BlueReadings/1/0',
    ]);
  });

  it('in the order drawn, which the sheet tells', async () => {
    const task = await spotTaskOf({ ...setup, ambient: false, seed: 'dice 4 2 6' });
    // Tickets by coreutils: printf 'dice 4 2 6\nBranch A' | sha256sum, and so on.
    expect(task.groups.map(({ label }) => label)).toEqual(['Branch C', 'Branch A', 'Branch B']);
  });
});
