import { describe, expect, it } from 'vitest';
import type { Component } from '../../src/metrology/component';
import { outputOf } from '../../src/metrology/model';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { HAND_INPUT } from '../sheets/byhand';
import { got } from './outcome';
import { EXACT, flat, nine } from './runs';

/* The causes that lie in the readings: their words, their sizes, and what counts where they are not stated. */

const causes = (input: RunInput) => got(runModel(input)).components;
const cause = (input: RunInput, id: string) => causes(input).find((each) => each.id === id)!;
/** Read once. */
const once = (display: number, spectralHalf?: number) => ({ repeats: [nine(display)], spectralHalf });
const WHITE: RunInput = { ...EXACT, red: undefined, green: undefined, blue: undefined };
const ONCE: RunInput = { ...WHITE, white: once(1000, 0) };

describe('each cause says what it is, what shares it, and what it must have in common with another run', () => {
  const RECTANGLE = { distribution: 'rectangular', dof: Number.POSITIVE_INFINITY } as const;
  const READING = { scope: 'reading', sharedBy: 'one reading' } as const;
  // Of the run worked by hand (test/sheets/byhand): ± 2 digits of 1 lx, half a step, 1 % of 9 lx, and what is stated.
  it.each<[string, Partial<Component>]>([
    [
      'digits:x1',
      {
        ...RECTANGLE,
        label: 'Meter, digits, range × 1',
        value: 0,
        halfWidth: 2,
        unit: 'lx',
        scope: 'meter',
        sharedBy: 'every reading in this range',
      },
    ],
    [
      'resolution:white:3',
      {
        ...RECTANGLE,
        ...READING,
        label: 'Display resolution, white, point 3',
        line: 'Display resolution, white readings',
        value: 0,
        halfWidth: 0.5,
        unit: 'lx',
      },
    ],
    [
      'repeatability:black:9',
      {
        ...READING,
        label: 'Repeatability, black, point 9',
        line: 'Repeatability, black readings',
        value: 0,
        halfWidth: 0.09,
        u: 0.09,
        unit: 'lx',
        distribution: 'normal',
        dof: 8,
        estimate: 'repeatability:black',
      },
    ],
    [
      'placing:white:1',
      {
        ...RECTANGLE,
        ...READING,
        label: 'Placing of the meter, white, point 1',
        line: 'Placing of the meter, white readings',
        value: 1,
        halfWidth: 0.01,
        unit: '',
      },
    ],
    [
      'linearity:black',
      {
        ...RECTANGLE,
        label: 'Linearity and range step, black',
        value: 1,
        halfWidth: 0.005,
        unit: '',
        scope: 'run',
        sharedBy: 'every black reading',
      },
    ],
    [
      'spectral:white',
      {
        ...RECTANGLE,
        label: 'Spectral mismatch, white',
        value: 1,
        halfWidth: 0.02,
        unit: '',
        scope: 'spectrum',
        sharedBy: 'every white reading',
      },
    ],
  ])('%s', (id, expected) => expect(cause(HAND_INPUT, id)).toMatchObject(expected));
});

describe('what is not known of the readings counts by its default, what is stated as stated', () => {
  it('digits, step, scatter, placing, mismatch', () => {
    const input = { ...EXACT, meter: { ofReading: 0 }, white: once(1000), red: once(250), placing: {} };
    // On paper: 10 digits of 1 lx; half a step of 1 lx; 1 % of 250 lx; 1 %; 2 % and 7 %.
    expect([
      cause(input, 'digits:x1').halfWidth,
      cause(input, 'resolution:red:9').halfWidth,
      cause(input, 'repeatability:red:9').halfWidth,
      cause(input, 'placing:red:9').halfWidth,
      cause(input, 'spectral:white').halfWidth,
      cause(input, 'spectral:red').halfWidth,
    ]).toEqual([10, 0.5, 2.5, 0.01, 0.02, 0.07]);
  });

  it('placing and linearity as stated', () => {
    const input = { ...ONCE, placing: { half: 0.02 }, linearity: { half: 0.003 } };
    expect(cause(input, 'placing:white:9').halfWidth).toBe(0.02);
    expect(cause(input, 'linearity:white').halfWidth).toBe(0.003);
  });

  // f11 of DIN 5032-7:1985 by class.
  it.each([
    ['L', 0.001],
    ['A', 0.005],
    ['B', 0.01],
    ['C', 0.02],
    [undefined, 0.02],
  ] as const)('linearity of a meter of class %s: ± %f', (meterClass, half) => {
    const input = { ...ONCE, meter: { ...EXACT.meter, meterClass }, linearity: {} };
    expect(cause(input, 'linearity:white').halfWidth).toBe(half);
  });
});

describe('scatter of one reading where no point was read twice (GUM G.4.2: good to a quarter of itself, ν = 8)', () => {
  it.each([
    ['1 % of 1000 lx, a guess', undefined, 10, 8],
    ['a part seen elsewhere, nobody knows how often', { part: 0.02 }, 20, 8],
    ['a part seen elsewhere in ten readings', { part: 0.02, readings: 10 }, 20, 9],
    ['ten readings of which nothing is said', { readings: 10 }, 10, 8],
  ])('%s', (_, repeatability, u, dof) => {
    const found = cause({ ...ONCE, repeatability }, 'repeatability:white:1');
    expect(found).toMatchObject({ u, dof });
  });

  it('what was seen elsewhere does not count where points were read twice', () => {
    const found = cause({ ...WHITE, repeatability: { part: 0.02, readings: 5 } }, 'repeatability:white:1');
    // Nine points, each read the same twice.
    expect(found).toMatchObject({ u: 0, dof: 9 });
  });

  it('repeats count in lux, by range, unit and correction', () => {
    const white = { repeats: [nine(10), nine(12)], range: 10, correction: 1.1, spectralHalf: 0 };
    // On paper: 1 on the display is 10 × 1.1 × 2 = 22 lx. s = √2 on the display, of two readings' mean s ÷ √2 = 1.
    const found = cause(
      { ...WHITE, meter: { ...EXACT.meter, luxPerUnit: 2 }, white },
      'repeatability:white:1',
    );
    expect(found.u).toBeCloseTo(22, 12);
    expect(found.dof).toBe(9);
  });
});

describe('digits and steps of the display', () => {
  it('one offset a range, from the finest up, in lux: digits × step × range × lux of the unit', () => {
    const meter = { ofReading: 0, digits: 5, digit: 0.1, luxPerUnit: 10.763910416709722 };
    const input = { ...EXACT, meter, white: { ...flat(100), range: 10 } };
    const found = causes(input).filter(({ id }) => id.startsWith('digits'));
    expect(found.map(({ id }) => id)).toEqual(['digits:x1', 'digits:x10']);
    // On paper: 5 × 0.1 footcandles are 5.381955… lx.
    expect(found[0]!.halfWidth).toBeCloseTo(5.381955208354861, 12);
    expect(found[1]!.halfWidth).toBeCloseTo(53.81955208354861, 11);
  });

  it("a range's own step goes before the common one", () => {
    const digitByRange = [
      { range: 10, digit: 0.1 },
      { range: 1, digit: 0.01 },
    ];
    const meter = { ofReading: 0, digits: 2, digit: 3, digitByRange };
    const range = [1, 10, 100, ...nine(1).slice(3)];
    const input = { ...WHITE, meter, white: { ...flat(100), range } };
    // On paper: 2 × 0.01 × 1, 2 × 0.1 × 10, 2 × 3 × 100; half a step 0.01 × 1 ÷ 2, 0.1 × 10 ÷ 2, 3 × 100 ÷ 2.
    const sizes = (id: string) =>
      [1, 10, 100].map((x, i) => cause(input, id === 'x' ? `digits:x${x}` : `${id}${i + 1}`).halfWidth);
    expect(sizes('x')).toEqual([0.02, 2, 600]);
    expect(sizes('resolution:white:')).toEqual([0.005, 0.5, 150]);
  });
});

describe('the mixture that white is', () => {
  /** Lumens by which a result moves for a mismatch of 1 of this light. */
  const lumensBy = (input: RunInput, output: string) => {
    const run = got(runModel(input));
    const { sensitivities } = outputOf(run, output);
    return (light: string) => sensitivities[run.components.findIndex(({ id }) => id === `spectral:${light}`)];
  };
  const LIGHTS = ['red', 'green', 'blue', 'white'];
  // On paper: less 10 lx of ambient light white is 1000 lx, its primaries 200 + 600 + 100 lx. So a fifth of white is red
  // light, 0.6 green, a tenth blue and a tenth added, of 1000 lx on 3 m²: what corrects a light bears on net light.
  const mixed: RunInput = {
    ...EXACT,
    spectrum: { f1: 0.03 },
    white: flat(1010),
    red: flat(210),
    green: flat(610),
    blue: flat(110),
  };
  it.each([
    ['one ambient illuminance', 10],
    ['one a point', nine(10)],
  ])('is of its primaries as their net light is, and of what is added (%s)', (_, value) => {
    const by = lumensBy({ ...mixed, ambient: { value, half: 0 } }, 'white');
    const expected = [600, 1800, 300, 300];
    LIGHTS.forEach((light, i) => {
      expect(by(light), light).toBeCloseTo(expected[i]!, 9);
    });
  });

  it('of the whole light where no ambient light was read', () => {
    const by = lumensBy({ ...EXACT, spectrum: { f1: 0.03 }, ambient: undefined }, 'white');
    // On paper: 250 + 650 + 80 of 1000 lx, 20 lx are added; times 3 m².
    const expected = [750, 1950, 240, 60];
    LIGHTS.forEach((light, i) => {
      expect(by(light), light).toBeCloseTo(expected[i]!, 9);
    });
  });

  it.each(['red', 'green', 'blue'])(
    'is not known where %s was not read: white errs as a whole',
    (without) => {
      const by = lumensBy({ ...EXACT, spectrum: { f1: 0.03 }, [without]: undefined }, 'white');
      expect(by('white')).toBe(3000);
      for (const light of LIGHTS.slice(0, 3)) expect(by(light) ?? 0, light).toBe(0);
    },
  );
});

describe('mismatch in black', () => {
  const board = { white: [500], black: [5], blackSpectralHalf: 0.03 };
  const black = (change: Partial<RunInput>) => cause({ ...WHITE, ...change }, 'spectral:black');
  it("is the field's own, else the board's, and one cause of both", () => {
    expect(black({ black: flat(2, 0.01), board }).halfWidth).toBe(0.01);
    expect(black({ black: once(2), board }).halfWidth).toBe(0.03);
    expect(black({ board })).toMatchObject({ halfWidth: 0.03, sharedBy: 'every black reading' });
    const both = causes({ ...WHITE, black: once(2), board });
    expect(both.filter(({ id }) => id === 'spectral:black')).toHaveLength(1);
  });

  it('is as of white where neither is stated: ± 2 %, or what f1′ and light make of it', () => {
    const open = { ...board, blackSpectralHalf: undefined };
    expect(black({ board: open }).halfWidth).toBe(0.02);
    // White of a lamp: half of f1′.
    expect(black({ board: open, spectrum: { f1: 0.06, light: 'lamp' } }).halfWidth).toBe(0.03);
  });

  it('says nothing of white', () => {
    const input = { ...WHITE, white: once(1000), board };
    expect(cause(input, 'spectral:white').halfWidth).toBe(0.02);
  });

  it('nothing is wrong by more than the whole of it', () => {
    // Blue of an RGB laser: 8.5 times f1′.
    const input: RunInput = { ...EXACT, blue: once(80), spectrum: { f1: 0.2, light: 'RGB laser' } };
    expect(cause(input, 'spectral:blue').halfWidth).toBe(1);
  });
});
