import { describe, expect, it } from 'vitest';
import { sum } from '../../src/metrology/derive';
import { combined, type Model, outputOf } from '../../src/metrology/model';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { runTrial } from '../../src/metrology/run/trial';
import { BY_HAND, HAND_INPUT } from '../sheets/byhand';
import { budget } from './budget';
import { got, problemsOf } from './outcome';
import { uniformityOf } from './photometryCheck';
import { EXACT, flat, randomRun, typicalRun } from './runs';

const U = (input: RunInput, id: string) => got(budget(got(runModel(input)), id)).expanded;
const u = (input: RunInput, id: string) => got(budget(got(runModel(input)), id)).u;
/** A copy with one reading changed. */
const changed = (grid: readonly (number | null)[], at: number, reading: number | null) =>
  grid.map((each, i) => (i === at ? reading : each));
const third = (half: number) => half / Math.sqrt(3);

describe('results', () => {
  const run = got(runModel(EXACT));
  it('are the light outputs of the readings (by hand: 3 m², 1000 : 250 : 650 : 80 lx)', () => {
    const value = (id: string) => outputOf(run, id).value;
    expect(value('white')).toBeCloseTo(3000, 9);
    expect([value('red'), value('green'), value('blue')].map((lm) => Math.round(lm))).toEqual([
      750, 1950, 240,
    ]);
    expect(value('colour')).toBeCloseTo(2940, 9);
    expect(value('ratio')).toBeCloseTo(0.98, 12);
    expect(value('uniformity')).toBe(1);
  });

  it('have no uncertainty where nothing is uncertain', () => {
    for (const { id } of run.outputs) expect(u(EXACT, id)).toBe(0);
  });

  it('leave out what has no readings', () => {
    const white = got(runModel({ ...EXACT, red: undefined }));
    expect(white.outputs.map(({ id }) => id)).toEqual(['white', 'green', 'blue', 'uniformity']);
  });

  it('take range factor, unit, correction and ambient light into account', () => {
    // By hand: (20 × 10 × 1.05 × 10.763910416709722 − 3) lx × 3 m².
    const input: RunInput = {
      ...EXACT,
      meter: { ...EXACT.meter, luxPerUnit: 10.763910416709722 },
      white: { ...flat(20), range: 10, correction: 1.05 },
      ambient: { value: 3, half: 0 },
    };
    expect(outputOf(got(runModel(input)), 'white').value).toBeCloseTo((210 * 10.763910416709722 - 3) * 3, 8);
  });

  it('give luminance E·G ÷ π and contrast white ÷ black', () => {
    const input: RunInput = { ...EXACT, screen: { gain: 1.2, half: 0 }, black: flat(2) };
    const run = got(runModel(input));
    expect(outputOf(run, 'luminance').value).toBeCloseTo((1000 * 1.2) / Math.PI, 9);
    expect(outputOf(run, 'contrast').value).toBeCloseTo(500, 9);
  });

  it('give the uniformity the photometry gives', () => {
    const run = got(runModel(typicalRun()));
    expect(outputOf(run, 'uniformity').value).toBeCloseTo(uniformityOf(typicalRun()), 12);
  });

  it('leave the contrast out where black cannot be told from nothing', () => {
    const run = got(runModel({ ...EXACT, meter: { ...EXACT.meter, digit: 0.1 }, black: flat(0.1) }));
    expect(run.outputs.some(({ id }) => id === 'contrast')).toBe(false);
  });
});

describe('one cause at a time (on paper: relative half-width × value ÷ √3)', () => {
  const cases: { what: string; input: RunInput; expected: Record<string, number> }[] = [
    {
      what: 'meter ± 3 %: every lumen, not the ratio',
      input: { ...EXACT, meter: { ...EXACT.meter, ofReading: 0.03 } },
      expected: { white: third(90), colour: third(88.2), red: third(22.5), ratio: 0, uniformity: 0 },
    },
    {
      what: 'width ± 1 cm of 2 m: every lumen, not the ratio',
      input: { ...EXACT, image: { ...EXACT.image, widthHalf: 0.01 } },
      expected: { white: third(15), colour: third(14.7), ratio: 0 },
    },
    {
      what: 'height ± 1 cm of 1.5 m',
      input: { ...EXACT, image: { ...EXACT.image, heightHalf: 0.01 } },
      expected: { white: third(20), colour: third(19.6), ratio: 0 },
    },
    {
      what: 'not square, ± 1 %',
      input: { ...EXACT, image: { ...EXACT.image, squareHalf: 0.01 } },
      expected: { white: third(30), colour: third(29.4), ratio: 0 },
    },
    {
      what: 'digits ± 5 × 0.1 lx, one range: an offset that counts three times in the sum of the primaries',
      input: { ...EXACT, meter: { ofReading: 0, digits: 5, digit: 0.1 } },
      // Beside it the display's resolution, 0.1 ÷ √12 a reading, nine readings a field.
      expected: {
        white: Math.hypot(third(1.5), (3 * 0.1) / Math.sqrt(12) / 3),
        colour: Math.hypot(third(4.5), Math.sqrt(3) * ((3 * 0.1) / Math.sqrt(12) / 3)),
      },
    },
    {
      what: 'spectral mismatch of red ± 6 %: red, colour and ratio, not white',
      input: { ...EXACT, red: flat(250, 0.06) },
      expected: { white: 0, red: third(45), colour: third(45), ratio: third(45 / 3000), green: 0 },
    },
    {
      what: 'ambient ± 2 lx: once from white, three times from the colours',
      input: { ...EXACT, ambient: { value: 0, half: 2 } },
      // Ratio: (3 − 0.98) × 2 lx ÷ 1000 lx.
      expected: { white: third(6), colour: third(18), ratio: third((3 - 0.98) * 0.002) },
    },
    {
      what: 'drift of 1 %: white and colours each, so that the ratio does not lose it',
      input: { ...EXACT, drift: { first: 100, last: 99 } },
      expected: { white: third(30), colour: third(29.4), ratio: third(0.0098) * Math.SQRT2 },
    },
    {
      what: 'a line of the user, U = 2 % with k = 2, on everything',
      input: {
        ...EXACT,
        others: [{ label: 'own', half: 0.02, distribution: 'normal', coverageFactor: 2, appliesTo: 'all' }],
      },
      expected: { white: 30, colour: 29.4, ratio: 0 },
    },
    {
      what: 'a line of the user on the colours, triangular ± 3 %',
      input: {
        ...EXACT,
        others: [{ label: 'own', half: 0.03, distribution: 'triangular', appliesTo: 'colours' }],
      },
      expected: { white: 0, colour: 88.2 / Math.sqrt(6), ratio: (0.03 * 0.98) / Math.sqrt(6) },
    },
  ];
  it.each(cases)('$what', ({ input, expected }) => {
    for (const [id, value] of Object.entries(expected)) {
      expect(u(input, id), id).toBeCloseTo(value, 9);
    }
  });

  it('repeatability: pooled s ÷ √(readings), ν = Σ(nᵢ − 1), counted once', () => {
    // Each point read as 999 and 1001: s² = 2 a point, ν = 9; mean of nine, each of two: s ÷ √18.
    const nine = (display: number) => Array.from({ length: 9 }, () => display);
    const input: RunInput = { ...EXACT, white: { repeats: [nine(999), nine(1001)], spectralHalf: 0 } };
    const white = got(budget(got(runModel(input)), 'white'));
    expect(white.u).toBeCloseTo((3 * Math.SQRT2) / Math.sqrt(18), 12);
    expect(white.dof).toBeCloseTo(9, 9);
    // t95.45(9) = 2.32 (NIST TN 1297, table B.1).
    expect(white.k).toBeCloseTo(2.32, 2);
  });

  it('repeats of some points only: the others lean on the pooled s', () => {
    const first = Array.from({ length: 9 }, () => 1000);
    const second = [1002, null, null, null, null, null, null, null, null];
    const input: RunInput = { ...EXACT, white: { repeats: [first, second], spectralHalf: 0 } };
    const white = got(budget(got(runModel(input)), 'white'));
    // s² = 2, ν = 1; one point of two readings, eight of one: u² = 2·(1/2 + 8) ÷ 81 × 9 m⁴.
    expect(white.u).toBeCloseTo(Math.sqrt((2 * 8.5) / 81) * 3, 12);
    expect(white.dof).toBeCloseTo(1, 12);
  });
});

describe('what is seen on the screen, worked by hand cause by cause', () => {
  it.each(BY_HAND)('$output', ({ output, value, squares }) => {
    const result = got(budget(got(runModel(HAND_INPUT)), output));
    expect(result.value).toBeCloseTo(value, 12);
    const expected = Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
    expect(result.u / expected).toBeCloseTo(1, 12);
  });

  it.each([
    ['darkest in × 10, brightest in × 1', [10, ...Array<number>(8).fill(1)], 10, 1],
    ['darkest in × 1, brightest in × 10', [...Array<number>(8).fill(1), 10], 1, 10],
  ])('uniformity over two ranges: two offsets that do not cancel (%s)', (_, range, low, high) => {
    // By hand: the digits count √(low² + (0.8·high)²) ÷ 1000 times 2 ÷ √3, the steps as often 0.5 ÷ √3; placing √1.28 %.
    const shown = HAND_INPUT.white.repeats[0]!.map((lux, i) => lux! / range[i]!);
    const white = { ...HAND_INPUT.white, repeats: [shown, shown], range };
    const result = got(budget(got(runModel({ ...HAND_INPUT, white })), 'uniformity'));
    const steps = (low ** 2 + (0.8 * high) ** 2) * 1e-6;
    expect(result.u).toBeCloseTo(Math.sqrt((4 / 3 + 0.25 / 3) * steps + 1.28e-4 / 3 + 3 * 0.04e-6), 12);
  });

  it('says how many points rival the extremes: none here, all where the light is even', () => {
    expect(got(runModel(HAND_INPUT)).extremes).toEqual({ least: 0, most: 8, rivals: 0 });
    expect(got(runModel(EXACT)).extremes).toEqual({ least: 0, most: 8, rivals: 7 });
  });

  it('gives a contrast no U where black cannot be told from nothing, on the board as well', () => {
    const board = { ...HAND_INPUT.board!, black: Array<number>(8).fill(1) };
    const run = got(runModel({ ...HAND_INPUT, board }));
    expect(run.outputs.map(({ id }) => id)).not.toContain('board');
  });

  it.each([
    ['no white tiles', { white: [] }, 'no readings of its white tiles'],
    ['a negative tile', { black: [5, -1] }, 'black tile 2'],
    ['range factor 0', { range: 0 }, 'checkerboard range factor'],
    ['a negative half-width', { blackSpectralHalf: -0.1 }, 'black spectral correction'],
  ])('refuses a board with %s', (_, change, words) => {
    const board = { ...HAND_INPUT.board!, ...change };
    expect(problemsOf(runModel({ ...HAND_INPUT, board }))[0]!.message).toContain(words);
  });
});

describe('shared causes', () => {
  const typical = typicalRun();
  const coarse = (change: Partial<RunInput>): RunInput => ({ ...typical, ...change });
  const meter = coarse({ meter: { ...typical.meter, ofReading: 0.1 } });
  const { width, height } = typical.image;
  const area = coarse({
    image: { ...typical.image, widthHalf: 0.1 * width, heightHalf: 0.1 * height, squareHalf: 0.1 },
  });

  it.each([
    ['the meter', meter],
    ['the image area', area],
  ])("setting %s to ± 10 % does not move the ratio's U while the lumens' U grows", (_, input) => {
    expect(U(input, 'ratio')).toBeCloseTo(U(typical, 'ratio'), 12);
    for (const id of ['white', 'red', 'green', 'blue', 'colour']) {
      expect(U(input, id)).toBeGreaterThan(1.2 * U(typical, id));
    }
  });

  it('the Monte Carlo knows nothing of the cancelling and finds it all the same', () => {
    const ratioOf = (input: RunInput) => {
      const { components, evaluate, outputs } = runTrial(got(runModel(input)));
      const x = Float64Array.from(components, ({ value }) => value);
      const y = new Float64Array(outputs.length);
      x[components.findIndex(({ id }) => id === 'gain')] = 1.1;
      x[components.findIndex(({ id }) => id === 'width')]! *= 0.9;
      evaluate(x, y);
      return [y[outputs.findIndex(({ id }) => id === 'ratio')]!, y[0]!] as const;
    };
    const run = got(runModel(typical));
    const [ratio, white] = ratioOf(typical);
    expect(ratio).toBeCloseTo(outputOf(run, 'ratio').value, 12);
    expect(white).toBeCloseTo(0.99 * outputOf(run, 'white').value, 6);
  });

  /** Of white and colour, from u of their sum: u²(a + b) = u²(a) + u²(b) + 2·r·u(a)·u(b) (GUM eq. 16). */
  function correlation(model: Model): number {
    const [a, b] = [outputOf(model, 'white'), outputOf(model, 'colour')];
    const [ua, ub, uSum] = [a, b, sum(a, a, b)].map((output) => combined(model.components, output));
    return (uSum! ** 2 - ua! ** 2 - ub! ** 2) / (2 * ua! * ub!);
  }

  it('make white and colour correlated, fully so where nothing else is uncertain', () => {
    const run = got(runModel({ ...EXACT, meter: { ...EXACT.meter, ofReading: 0.03 } }));
    expect(correlation(run)).toBeCloseTo(1, 12);
    const mixed = got(runModel(typical));
    const r = correlation(mixed);
    expect(r).toBeGreaterThan(0.3);
    expect(r).toBeLessThan(1);
  });
});

describe('the budget table', () => {
  const white = got(budget(got(runModel(typicalRun())), 'white'));
  it('has shares that add up to 1 and contributions that add up in squares', () => {
    expect(white.lines.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(Math.sqrt(white.lines.reduce((sum, { contribution }) => sum + contribution ** 2, 0))).toBeCloseTo(
      white.u,
      9,
    );
  });

  it('keeps u = half-width ÷ divisor and contribution = |sensitivity|·u in every row', () => {
    for (const line of white.lines) {
      expect(line.halfWidth / line.divisor).toBeCloseTo(line.u, 12);
      expect(Math.abs(line.sensitivity) * line.u).toBeCloseTo(line.contribution, 9);
    }
  });

  it('shows nine readings as one row, and only what bears on the result', () => {
    expect(white.lines.find(({ label }) => label === 'Display resolution, white readings')?.count).toBe(9);
    expect(white.lines.some(({ label }) => label.includes('red'))).toBe(false);
  });

  it('names what would help most', () => {
    const [first] = [...white.lines].sort((a, b) => b.share - a.share);
    expect(first!.label).toBe('Meter, % of reading');
  });
});

describe('what is unknown', () => {
  const nine = Array.from({ length: 9 }, () => 1000);
  const bare: RunInput = {
    image: { width: 2, height: 1.5 },
    meter: {},
    white: { repeats: [nine] },
    red: { repeats: [nine] },
  };

  it('takes the total of a DIN 5032-7:1985 class for the accuracy: B is ± 10 %, unknown is C, ± 20 %', () => {
    const gain = (input: RunInput) => got(runModel(input)).components[0]!.halfWidth;
    expect(gain(bare)).toBe(0.2);
    expect(gain({ ...bare, meter: { meterClass: 'B' } })).toBe(0.1);
  });

  it('makes the result no better than a fully known run', () => {
    const known: RunInput = { ...typicalRun(), white: flat(1000, 0.02), red: flat(1000, 0.05) };
    expect(U(bare, 'white')).toBeGreaterThan(U(known, 'white'));
  });
});

describe('bad input', () => {
  const bad = (change: Partial<RunInput>) => problemsOf(runModel({ ...EXACT, ...change }))[0]!;
  const nine = Array.from<number | null>({ length: 9 }).fill(1000);
  it.each<[string, Partial<RunInput>, string, string]>([
    ['no width', { image: { ...EXACT.image, width: 0 } }, 'out-of-bounds', 'image width'],
    ['negative half-width', { image: { ...EXACT.image, widthHalf: -0.01 } }, 'negative', 'half-width'],
    ['NaN accuracy', { meter: { ofReading: Number.NaN } }, 'not-a-number', 'fraction of the reading'],
    ['a missing reading', { white: { repeats: [changed(nine, 3, null)] } }, 'missing', 'point 4'],
    [
      'a negative reading',
      { white: { repeats: [nine, changed(nine, 8, -1)] } },
      'negative',
      'point 9, repeat 2',
    ],
    ['NaN reading', { white: { repeats: [changed(nine, 0, Number.NaN)] } }, 'not-a-number', 'point 1'],
    ['eight readings', { red: { repeats: [nine.slice(1)] } }, 'shape', 'red'],
    ['no readings', { white: { repeats: [] } }, 'shape', 'white'],
    ['range factor 0', { white: { ...flat(1), range: 0 } }, 'out-of-bounds', 'range factor'],
    ['two range factors', { white: { ...flat(1), range: [1, 10] } }, 'shape', 'range'],
    ['all dark', { white: flat(0) }, 'ambient-exceeds', 'white'],
    ['brighter ambient', { ambient: { value: 2000 } }, 'ambient-exceeds', 'white'],
    ['negative ambient', { ambient: { value: -1 } }, 'negative', 'ambient'],
    ['three ambients', { ambient: { value: [1, 2, 3] } }, 'shape', 'ambient'],
    ['drift from 0', { drift: { first: 0, last: 1 } }, 'out-of-bounds', 'first centre'],
    ['gain 0', { screen: { gain: 0 } }, 'out-of-bounds', 'screen gain'],
    ['unknown class', { meter: { meterClass: 'X' as 'A' } }, 'choice', 'class'],
  ])('%s', (_, change, code, words) => {
    const problem = bad(change);
    expect(problem.code).toBe(code);
    expect(problem.message).toContain(words);
  });

  it('reports everything that is wrong at once', () => {
    const problems = problemsOf(
      runModel({
        ...EXACT,
        image: { width: 0, height: -1 },
        white: { repeats: [changed(changed(nine, 0, null), 1, -3)] },
      }),
    );
    expect(problems.map(({ code }) => code)).toEqual([
      'out-of-bounds',
      'out-of-bounds',
      'missing',
      'negative',
    ]);
  });
});

describe('sensitivities are the derivatives of the run’s own equations', () => {
  it.each([1, 2, 3, 4, 5, 6])('random run %i', (seed) => {
    const board = { white: [200, 210, 190], black: [2, 2.2, 1.9], range: 10, correction: 1.02 };
    const input = { ...randomRun(seed), black: flat(3, 0.02), board };
    const run = got(runModel(input));
    const { evaluate } = runTrial(run);
    const x = Float64Array.from(run.components, ({ value }) => value);
    const [up, down] = [new Float64Array(run.outputs.length), new Float64Array(run.outputs.length)];
    evaluate(x, up);
    run.outputs.forEach(({ value, id }, k) => {
      expect(up[k]! / value, id).toBeCloseTo(1, 12);
    });
    run.components.forEach(({ id, value }, i) => {
      const step = 1e-5 * Math.max(1, Math.abs(value));
      x[i] = value + step;
      evaluate(x, up);
      x[i] = value - step;
      evaluate(x, down);
      x[i] = value;
      run.outputs.forEach((output, k) => {
        const slope = (up[k]! - down[k]!) / (2 * step);
        const scale = Math.abs(output.value) + Math.abs(slope);
        expect(Math.abs(slope - output.sensitivities[i]!) / scale, `${output.id} by ${id}`).toBeLessThan(
          1e-6,
        );
      });
    });
  });
});
