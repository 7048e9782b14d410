import { describe, expect, it } from 'vitest';
import { outputOf } from '../../src/metrology/model';
import { layoutOf } from '../../src/metrology/run/components';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { driftOf, meanNet, pointNet } from '../../src/metrology/run/sensitivities';
import { runTrial } from '../../src/metrology/run/trial';
import { blackDoubts } from './blackdoubts';
import { got, problemsOf } from './outcome';
import { EXACT, flat, nine } from './runs';

/* What a run's results are called, where they are none, and how they move with what bears on single readings. */

const WHITE: RunInput = { ...EXACT, red: undefined, green: undefined, blue: undefined };
/** With all that can be read. */
const FULL: RunInput = {
  ...EXACT,
  black: flat(2),
  screen: { gain: 1.2, half: 0 },
  board: { white: [500, 500], black: [5, 5], blackSpectralHalf: 0 },
};

describe('results', () => {
  it('are called by their names and units, each with one derivative a cause', () => {
    const { outputs, components } = got(runModel(FULL));
    expect(outputs.map(({ id, label, unit }) => [id, label, unit])).toEqual([
      ['white', 'white light output', 'lm'],
      ['red', 'red light output', 'lm'],
      ['green', 'green light output', 'lm'],
      ['blue', 'blue light output', 'lm'],
      ['colour', 'colour light output', 'lm'],
      ['luminance', 'screen luminance', 'cd/m²'],
      ['ratio', 'colour to white ratio', ''],
      ['uniformity', 'uniformity, min ÷ max', ''],
      ['contrast', 'sequential contrast', ''],
      ['board', 'checkerboard contrast', ''],
    ]);
    for (const { id, sensitivities } of outputs) expect(sensitivities, id).toHaveLength(components.length);
  });

  it('rest on illuminances of a field and of its points, counted from 1', () => {
    const layout = layoutOf(FULL);
    const white = layout.fields[0]!;
    expect(meanNet(layout, white)).toMatchObject({
      id: 'white',
      label: 'white illuminance',
      unit: 'lx',
      value: 1000,
    });
    expect(pointNet(layout, white, 2)).toMatchObject({
      id: '',
      label: 'white illuminance at point 3',
      unit: 'lx',
      value: 1000,
    });
  });

  it('drift with white or with the colours; black does not', () => {
    const layout = layoutOf(FULL);
    const drifts = layout.fields.map((field) =>
      driftOf(layout, field).map((at) => layout.components[at]!.id),
    );
    const colours = ['drift:colours'];
    expect(drifts).toEqual([['drift:white'], colours, colours, colours, []]);
  });

  it.each([
    ['white', 1000],
    ['green', 650],
  ] as const)('are none where ambient light leaves nothing of %s', (name, lux) => {
    const input = {
      ...WHITE,
      [name]: flat(lux),
      white: flat(1000),
      ambient: { value: lux + 0.123456, half: 0 },
    };
    expect(problemsOf(runModel(input))[0]).toEqual({
      kind: 'invalid',
      code: 'ambient-exceeds',
      where: `${name} readings`,
      message: `The ${name} readings leave no light after ambient: their mean is -0.1235 lx.`,
    });
  });
});

describe('points that may be the darkest or the brightest', () => {
  const extremes = (input: Partial<RunInput>) => got(runModel({ ...WHITE, ...input })).extremes;

  it('by their scatter: nearer than 2.5 standard uncertainties of the difference of two', () => {
    // On paper: of 1 % each two readings of r differ by less than 2.5 · √2 · 1 % = 3.5355 % of r. So up to 829.3 lx is near
    // 800 lx, and from 965.9 lx on near 1000 lx: 829 and 966 are, 830 and 965 are not.
    const readings = [800, 829, 830, 900, 900, 900, 965, 966, 1000];
    const white = { repeats: [readings], spectralHalf: 0 };
    expect(extremes({ white, repeatability: { part: 0.01 } })).toEqual({ least: 0, most: 8, rivals: 2 });
  });

  it('by the step of the display, half a step ÷ √3', () => {
    // On paper: a step of 1 lx hides 2.5 · √2 ÷ √12 = 1.0206 lx.
    const readings = [800, 801, 802, 900, 900, 900, 998, 999, 1000];
    const white = { repeats: [readings, readings], spectralHalf: 0 };
    const meter = { ...EXACT.meter, digit: 1 };
    expect(extremes({ white, meter })).toEqual({ least: 0, most: 8, rivals: 2 });
  });

  it('by how the meter was held, a rectangle of ± 1 % of the reading', () => {
    // On paper: 2.5 · √2 · 1 % ÷ √3 = 2.0412 % of the reading: up to 816.6 lx is near 800 lx, from 980.0 lx on near 1000 lx.
    const readings = [800, 816, 817, 900, 900, 900, 979, 981, 1000];
    const white = { repeats: [readings, readings], spectralHalf: 0 };
    expect(extremes({ white, placing: {} })).toEqual({ least: 0, most: 8, rivals: 2 });
    expect(extremes({ white })).toEqual({ least: 0, most: 8, rivals: 0 });
  });

  it('by both, as squares add up', () => {
    // On paper: 1 % of 100 lx and a step of 4 lx, 4 ÷ √12 = 1.1547 lx, make 1.5275 lx: 2.5 · √2 times that is 5.4006 lx.
    // Neither alone would do: 3.5355 lx and 4.0825 lx.
    const readings = [95, 100, 100, 130, 130, 130, 200, 200, 300];
    const white = { repeats: [readings], spectralHalf: 0 };
    const meter = { ...EXACT.meter, digit: 4 };
    expect(extremes({ white, meter, repeatability: { part: 0.01 } })).toEqual({
      least: 0,
      most: 8,
      rivals: 2,
    });
  });

  it.each([
    ['of the same light as the darkest', [800, 800, 800, 900, 910, 920, 930, 940, 1000], 0, 8],
    ['of the same light as the brightest', [800, 850, 860, 900, 910, 920, 1000, 1000, 1000], 0, 8],
  ])('%s, even if nothing is uncertain', (_, readings, least, most) => {
    const white = { repeats: [readings, readings], spectralHalf: 0 };
    expect(extremes({ white })).toEqual({ least, most, rivals: 2 });
  });

  it('after the ambient light of each', () => {
    // On paper: 1005 − 15 = 990 lx is the darkest although it reads brightest; 1000 − 5, 1002 − 5 = 997 lx.
    const readings = [1005, ...nine(1000).slice(2), 1002];
    const input: RunInput = {
      ...WHITE,
      white: { repeats: [readings, readings], spectralHalf: 0 },
      ambient: { value: [15, ...nine(5).slice(1)], half: 0 },
    };
    const run = got(runModel(input));
    expect(run.extremes).toMatchObject({ least: 0, most: 8 });
    expect(outputOf(run, 'uniformity').value).toBeCloseTo(990 / 997, 12);
    expect(at(input, {}).uniformity).toBeCloseTo(990 / 997, 12);
  });
});

/** All results as the run's own equations have them where some causes are so much more than they are taken for. */
function at(input: RunInput, more: Readonly<Record<string, number>>): Record<string, number> {
  const run = got(runModel(input));
  const { components, outputs, evaluate } = runTrial(run);
  const x = Float64Array.from(components, ({ id, value }) => value + (more[id] ?? 0));
  const y = new Float64Array(outputs.length);
  evaluate(x, y);
  return Object.fromEntries(outputs.map(({ id }, k) => [id, y[k]!]));
}

describe('readings and ambient light in two ranges', () => {
  // White is 840, seven times 945 and 1050 lx after its correction, 945 lx in the mean: one point in × 10, eight in × 1. Ambient light, 5 lx,
  // was read in × 10 at three points and in × 1 at six, with a meter that is to be multiplied by 1.1.
  const readings = [80, ...nine(900).slice(2), 1000];
  const input: RunInput = {
    ...WHITE,
    white: {
      repeats: [readings, readings],
      range: [10, ...nine(1).slice(1)],
      correction: 1.05,
      spectralHalf: 0,
    },
    ambient: { value: 5, half: 0, range: [10, 10, 10, ...nine(1).slice(3)], calibration: 1.1 },
  };
  // On paper, for an offset of 1 lx: lumens are 3 m² times (1.05 × points − 1.1 × points of ambient light) ÷ 9.
  it.each([
    ['digits:x10', (3 * (1.05 - 1.1 * 3)) / 9],
    ['digits:x1', (3 * (1.05 * 8 - 1.1 * 6)) / 9],
  ])('the offset of a range counts as often as it was read in it: %s', (id, lumens) => {
    const run = got(runModel(input));
    const place = run.components.findIndex((each) => each.id === id);
    expect(outputOf(run, 'white').value).toBeCloseTo(3 * 940, 9);
    expect(outputOf(run, 'white').sensitivities[place]).toBeCloseTo(lumens, 12);
    expect(at(input, { [id]: 1 }).white! - 3 * 940).toBeCloseTo(lumens, 9);
  });

  it('and at a point once of each: darkest in × 10, brightest in × 1', () => {
    // On paper: 835 and 1045 lx; an offset of 1 lx is 1.05 − 1.1 = −0.05 lx of either.
    const run = got(runModel(input));
    const by = (id: string) =>
      outputOf(run, 'uniformity').sensitivities[run.components.findIndex((each) => each.id === id)];
    expect(by('digits:x10')).toBeCloseTo(-0.05 / 1045, 12);
    expect(by('digits:x1')).toBeCloseTo((0.05 * 835) / 1045 ** 2, 12);
    expect(at(input, { 'digits:x10': 1 }).uniformity).toBeCloseTo(834.95 / 1045, 12);
    expect(at(input, { 'digits:x1': 1 }).uniformity).toBeCloseTo(835 / 1044.95, 12);
  });
});

describe('black that is not told from nothing', () => {
  const hasContrast = (input: RunInput) => got(runModel(input)).outputs.some(({ id }) => id === 'contrast');

  it('counts by the widest step of its ranges', () => {
    // On paper: a step of 1 is 1 lx in × 1 and 0.1 lx in × 0.1. Black of 0.5 lx in both is less than the wider.
    const meter = { ...EXACT.meter, digit: 1 };
    const shown = [0.5, ...nine(5).slice(1)];
    const range = [1, ...nine(0.1).slice(1)];
    const black = { repeats: [shown, shown], range, spectralHalf: 0 };
    expect(hasContrast({ ...WHITE, meter, black })).toBe(false);
    expect(
      hasContrast({ ...WHITE, meter, black: { ...black, repeats: [nine(5), nine(5)], range: 0.1 } }),
    ).toBe(true);
  });

  it('of 0 lx is a bound, too, and no division, however fine the meter', () => {
    expect(hasContrast({ ...WHITE, black: flat(0) })).toBe(false);
  });

  it('is not doubted for what the meter does to white as well', () => {
    // A quotient is free of a gain, however doubtful: what is left is 2 · 0.3 lx ÷ √3 of the ambient light.
    const input: RunInput = {
      ...WHITE,
      meter: { ...EXACT.meter, ofReading: 0.9 },
      black: flat(2),
      ambient: { value: 0, half: 0.3 },
      blackBound: 'U',
    };
    expect(blackDoubts(input).contrast).toBeCloseTo(0.6 / Math.sqrt(3), 12);
    expect(hasContrast(input)).toBe(true);
  });
});
