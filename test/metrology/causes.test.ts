import { describe, expect, it } from 'vitest';
import { outputOf } from '../../src/metrology/model';
import { CLASS_F1, SPECTRAL_PER_F1 } from '../../src/metrology/run/defaults';
import type { LightSource, RunInput } from '../../src/metrology/run/input';
import { type RunModel, runModel } from '../../src/metrology/run/model';
import { runTrial } from '../../src/metrology/run/trial';
import { goodOf } from '../photometry/outcome';
import { blackDoubts } from './blackdoubts';
import { budget } from './budget';
import { EXACT, flat } from './runs';
import { errorsPerF1 } from './spectra';
import { wholeRun } from './wholerun';

const model = (input: RunInput) => goodOf(runModel(input));
const u = (input: RunInput, id: string) => goodOf(budget(model(input), id)).u;
const value = (input: RunInput, id: string) => outputOf(model(input), id).value;

/** What a result becomes when some causes take other values, by the run's own equations and not their derivatives. */
function shifted(run: RunModel, ids: Readonly<Record<string, number>>, id: string): number {
  const trial = runTrial(run);
  const x = Float64Array.from(run.components, (c) => ids[c.id] ?? c.value);
  const y = new Float64Array(run.outputs.length);
  trial.evaluate(x, y);
  return y[run.outputs.findIndex((output) => output.id === id)]!;
}

/** One meter, no other doubt: 1000 lx of white made of 220 + 690 + 90 lx, or with 500 lx added to it. */
const additive: RunInput = { ...EXACT, white: flat(1000), red: flat(220), green: flat(690), blue: flat(90) };
const bare = ({ white, red, green, blue, ...rest }: RunInput): RunInput => {
  const open = ({ spectralHalf: _, ...field }: RunInput['white']) => field;
  return { ...rest, white: open(white), red: open(red!), green: open(green!), blue: open(blue!) };
};
const seen = (run: RunInput, light?: LightSource, f1 = 0.06): RunInput => ({
  ...bare(run),
  spectrum: { f1, ...(light ? { light } : {}) },
});

describe('spectral mismatch by primary (white as the sum of its primaries and what is added)', () => {
  it('cancels in the ratio of an additive projector, and does not where light is added', () => {
    expect(u(seen(additive), 'ratio')).toBeLessThan(1e-12);
    const added = seen({ ...additive, white: flat(1500) });
    // Ratio 2/3. Of R = C ÷ (C + A): ∂R/∂ε of a primary p is p(1 − R) ÷ W, of the light added −R·A ÷ W.
    const [R, W] = [1000 / 1500, 1500];
    const per = SPECTRAL_PER_F1.unknown;
    const parts = [
      ...(
        [
          ['red', 220],
          ['green', 690],
          ['blue', 90],
        ] as const
      ).map(([p, E]) => per[p] * 0.06 * E * (1 - R)),
      per.white * 0.06 * R * 500,
    ].map((part) => part / W / Math.sqrt(3));
    expect(u(added, 'ratio')).toBeCloseTo(Math.hypot(...parts), 12);
  });

  it('adds up in white as in colour: one and the same light', () => {
    expect(u(seen(additive), 'white')).toBeCloseTo(u(seen(additive), 'colour'), 9);
    const per = SPECTRAL_PER_F1['RGB laser'];
    const lumens = [per.red * 220, per.green * 690, per.blue * 90].map(
      (lux) => (lux * 0.06 * 3) / Math.sqrt(3),
    );
    expect(u(seen(additive, 'RGB laser'), 'white')).toBeCloseTo(Math.hypot(...lumens), 9);
  });

  it('is that of white light where no primaries were read', () => {
    const { red: _r, green: _g, blue: _b, ...white } = seen(additive, 'lamp');
    expect(u(white, 'white')).toBeCloseTo((1000 * 3 * 0.5 * 0.06) / Math.sqrt(3), 9);
  });

  it('grows with f1′: by class where it is not stated, class C where nothing is', () => {
    for (const meterClass of ['L', 'A', 'B', 'C'] as const) {
      const run = { ...bare(additive), spectrum: {}, meter: { ...EXACT.meter, meterClass } };
      expect(u(run, 'white')).toBeCloseTo(u(seen(additive, undefined, CLASS_F1[meterClass]), 'white'), 9);
    }
    expect(u({ ...bare(additive), spectrum: {} }, 'white')).toBeCloseTo(
      u(seen(additive, undefined, 0.09), 'white'),
      9,
    );
  });

  it('leaves what is known of a primary as it is stated', () => {
    const run = { ...seen(additive), blue: flat(90, 0.1) };
    const per = SPECTRAL_PER_F1.unknown;
    const lumens = [per.red * 0.06 * 220, per.green * 0.06 * 690, 0.1 * 90].map(
      (lux) => (lux * 3) / Math.sqrt(3),
    );
    expect(u(run, 'colour')).toBeCloseTo(Math.hypot(...lumens), 9);
  });

  // Computed with V(λ) of CIE 1924 at 10 nm (from memory; ISO/CIE 11664 has the same): see spectra.ts.
  it.each(['lamp', 'laser phosphor', 'LED', 'RGB laser'] as const)(
    '%s: the defaults hold what meters of two families read wrong, and are no more than twice of it',
    (light) => {
      for (const field of ['white', 'red', 'green', 'blue'] as const) {
        const errors = errorsPerF1(light, field);
        const worst = Math.max(...errors.map(Math.abs));
        expect(SPECTRAL_PER_F1[light][field], `${field} ${worst}`).toBeGreaterThanOrEqual(worst * 0.99);
        expect(SPECTRAL_PER_F1[light][field], `${field} ${worst}`).toBeLessThanOrEqual(worst * 2);
        expect(SPECTRAL_PER_F1.unknown[field]).toBeGreaterThanOrEqual(SPECTRAL_PER_F1[light][field]);
      }
    },
  );
});

describe('causes of their own, by hand', () => {
  const one = (change: Partial<RunInput>) => ({ ...EXACT, ...change });
  it('placing: each of nine readings on its own, also where repeats agree', () => {
    // Nine equal readings: ± 1 % ÷ √3 ÷ √9 of 3000 lm; of even light min ÷ max, √2 of one reading.
    expect(u(one({ placing: { half: 0.01 } }), 'white')).toBeCloseTo((3000 * 0.01) / Math.sqrt(3) / 3, 9);
    expect(u(one({ placing: { half: 0.01 } }), 'uniformity')).toBeCloseTo(
      (0.01 * Math.SQRT2) / Math.sqrt(3),
      12,
    );
  });
  it('linearity: a field on its own, so that it stays in the ratio', () => {
    const run = one({ linearity: { half: 0.02 } });
    expect(u(run, 'white')).toBeCloseTo((3000 * 0.02) / Math.sqrt(3), 9);
    expect(u(run, 'uniformity')).toBeLessThan(1e-12);
    const parts = [250, 650, 80].map((E) => E / 1000);
    expect(u(run, 'ratio')).toBeCloseTo((0.02 / Math.sqrt(3)) * Math.hypot(...parts, 0.98), 12);
  });
  it('room and sensor: every light output alike, nothing of a ratio', () => {
    for (const run of [
      one({ room: { half: 0.016 } }),
      one({ sensor: { throwDistance: 0.6, height: 0.025 } }),
    ]) {
      expect(u(run, 'ratio')).toBeLessThan(1e-12);
      expect(u(run, 'white')).toBeGreaterThan(0);
      expect(u(run, 'colour') / u(run, 'white')).toBeCloseTo(0.98, 9);
    }
    expect(u(one({ room: { half: 0.016 } }), 'white')).toBeCloseTo((3000 * 0.016) / Math.sqrt(3), 9);
  });
  it('sensor: 5 mm of 25 mm and 3 % of the throw; all of 25 mm where the throw is not known', () => {
    // E ∝ 1 ÷ (D − h)²: 2 ÷ 0.6 m × (5 mm + 25 mm × 3 %). Unknown: 2 × 25 mm ÷ the image's 2 m.
    expect(u(one({ sensor: { throwDistance: 0.6, height: 0.025 } }), 'white')).toBeCloseTo(
      (3000 * (2 / 0.6) * 0.00575) / Math.sqrt(3),
      9,
    );
    expect(u(one({ sensor: {} }), 'white')).toBeCloseTo((3000 * 0.025) / Math.sqrt(3), 9);
  });
  it('one measured length: width and height are wrong together', () => {
    const image = { width: 2, height: 1.5, widthHalf: 0.02, heightHalf: 0.015, squareHalf: 0 };
    expect(u(one({ image }), 'white')).toBeCloseTo((3000 * 0.01 * Math.SQRT2) / Math.sqrt(3), 9);
    expect(u(one({ image: { ...image, isOneLength: true } }), 'white')).toBeCloseTo(
      (3000 * 0.02) / Math.sqrt(3),
      9,
    );
  });
  it('certificate: U ÷ 2, a triangle ÷ √6, a limit ÷ √3', () => {
    const meter = { ...EXACT.meter, ofReading: 0.03 };
    expect(u(one({ meter: { ...meter, distribution: 'normal' } }), 'white')).toBeCloseTo(45, 9);
    expect(u(one({ meter: { ...meter, distribution: 'triangular' } }), 'white')).toBeCloseTo(
      90 / Math.sqrt(6),
      9,
    );
    expect(u(one({ meter }), 'white')).toBeCloseTo(90 / Math.sqrt(3), 9);
  });
});

describe('black near the meter’s floor', () => {
  const meter = { ofReading: 0, digits: 10, digit: 0.1 };
  const black = flat(0.75);
  const dark = (ambient: RunInput['ambient'], bound?: 'U'): RunInput => ({
    ...EXACT,
    meter,
    black,
    ambient,
    white: flat(872),
    ...(bound ? { blackBound: bound } : {}),
  });
  it('the offset that black and ambient share in one range cancels', () => {
    const apart = u(dark({ value: 0.5, half: 0 }), 'contrast');
    const together = u(dark({ value: 0.5, half: 0, range: 1, calibration: 1 }), 'contrast');
    // Only the steps of the display are left of nine readings each: 0.05 ÷ √3 ÷ 3 of 0.25 lx.
    const C = (872 - 0.5) / 0.25;
    expect(together).toBeCloseTo((0.05 / Math.sqrt(3) / 3 / 0.25) * Math.hypot(1, C), 6);
    expect(apart / together).toBeGreaterThan(50);
    const otherRange = u(dark({ value: 0.5, half: 0, range: 0.1, calibration: 1 }), 'contrast');
    expect(otherRange).toBeGreaterThan(apart);
  });
  it('is a bound as soon as its doubt is as large as itself', () => {
    const isBound = (input: RunInput) => !model(input).outputs.some(({ id }) => id === 'contrast');
    expect(isBound(dark({ value: 0.5, half: 0 }))).toBe(false);
    expect(isBound(dark({ value: 0.5, half: 0 }, 'U'))).toBe(true);
    expect(isBound(dark({ value: 0.5, half: 0, range: 1, calibration: 1 }, 'U'))).toBe(false);
    // Ten digits of 0.1 lx as a rectangle and nine steps of the display, k = 2.
    const doubt = 2 * Math.hypot(1 / Math.sqrt(3), 0.05 / Math.sqrt(3) / 3);
    expect(blackDoubts(dark({ value: 0.5, half: 0 }, 'U')).contrast).toBeCloseTo(doubt, 9);
  });
});

it('sensitivities are the derivatives of the run’s own equations, all causes at work', () => {
  for (const seed of [1, 2, 3]) {
    for (const light of [undefined, 'lamp', 'RGB laser'] as const) {
      const run = model(wholeRun(seed, { spectrum: { f1: 0.03, ...(light ? { light } : {}) } }));
      for (const output of run.outputs) {
        expect(shifted(run, {}, output.id) / output.value).toBeCloseTo(1, 12);
        run.components.forEach(({ id, value: at, u: spread }, i) => {
          const step = Math.max(1e-6, 1e-4 * spread);
          const [up, down] = [step, -step].map((by) => shifted(run, { [id]: at + by }, output.id));
          const slope = (up! - down!) / (2 * step);
          const scale = Math.abs(output.sensitivities[i]!) + 1e-6 * Math.abs(output.value);
          expect(Math.abs(slope - output.sensitivities[i]!) / scale, `${output.id} by ${id}`).toBeLessThan(
            2e-3,
          );
        });
      }
    }
  }
});

it('what is not asked for leaves an older run as it was', () => {
  const {
    spectrum: _s,
    placing: _p,
    linearity: _l,
    room: _r,
    sensor: _e,
    blackBound: _b,
    ...old
  } = wholeRun();
  const { isOneLength: _o, ...image } = old.image;
  expect(
    model({ ...old, image, ambient: { value: 1.2, half: 0.3 } }).components.map(({ id }) => id.split(':')[0]),
  ).not.toEqual(expect.arrayContaining(['placing', 'linearity', 'room', 'sensor', 'size']));
  expect(value(wholeRun(), 'white')).toBeCloseTo(value(old, 'white'), 9);
});
