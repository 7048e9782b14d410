import { expect, it } from 'vitest';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { runTrial } from '../../src/metrology/run/trial';
import { got } from './outcome';
import { wholeRun } from './wholerun';

/*
 * Sensitivities against numerical differentiation of the run's own equations, cause by cause: with corrections of the
 * projector's light that are not 1, and ambient light that is a good part of the readings. Central differences.
 */
const NINE = [30, 22, 35, 28, 31, 25, 40, 27, 33];
const CALIBRATION = 1.03;
const LIGHT = { white: 0.97, red: 1.06, green: 0.95, blue: 1.12, black: 0.97 } as const;

function litRoom(value: number | readonly number[]): RunInput {
  const run = wholeRun(3);
  const dark = (i: number) => (typeof value === 'number' ? value : value[i]!);
  const fields = (['white', 'red', 'green', 'blue', 'black'] as const).map((name) => {
    const field = run[name]!;
    const range = field.range as number;
    // Darker at the first point and brighter at the last, so that nothing rivals the two; the room's light on top.
    const lift = (i: number) => (i === 0 ? 0.7 : i === 8 ? 1.4 : 1);
    const repeats = field.repeats.map((grid) =>
      grid.map((n, i) => n! * lift(i) + dark(i) / CALIBRATION / range),
    );
    const light = LIGHT[name];
    return [name, { ...field, repeats, light, correction: CALIBRATION * light }] as const;
  });
  const board = { white: [400, 410], black: [36, 37], range: 1, correction: CALIBRATION * 0.97, light: 0.97 };
  return {
    ...run,
    ...Object.fromEntries(fields),
    board,
    oblique: { f2: 0.02 },
    ambient: { value, half: 0.4, range: typeof value === 'number' ? 1 : 0.1, calibration: CALIBRATION },
  };
}

it.each([
  ['read once', 30],
  ['read at each point', NINE],
])('every sensitivity is the derivative of the run, ambient %s', (_, value) => {
  const model = got(runModel(litRoom(value)));
  expect(model.outputs.map(({ id }) => id)).toEqual(
    expect.arrayContaining(['white', 'colour', 'ratio', 'luminance', 'uniformity', 'contrast', 'board']),
  );
  const { evaluate } = runTrial(model);
  const at = (shift: number, i: number) => {
    const x = Float64Array.from(model.components, ({ value: each }) => each);
    x[i]! += shift;
    const y = new Float64Array(model.outputs.length);
    evaluate(x, y);
    return y;
  };
  const here = at(0, 0);
  model.outputs.forEach(({ id, value: own }, o) => {
    expect(here[o]! / own, id).toBeCloseTo(1, 12);
  });
  model.components.forEach(({ id: cause, value: around }, i) => {
    const h = 1e-5 * Math.max(1, Math.abs(around));
    const [below, above] = [at(-h, i), at(h, i)];
    model.outputs.forEach(({ id, value: own, sensitivities }, o) => {
      const slope = (above[o]! - below[o]!) / (2 * h);
      expect(
        Math.abs(sensitivities[i]! - slope),
        `${id} by ${cause}: ${sensitivities[i]} for ${slope}`,
      ).toBeLessThan(1e-6 * Math.max(Math.abs(own), Math.abs(slope)));
    });
  });
});

it('a wrong correction of the light bears on net light: of white as a whole, not on a uniformity or a contrast of one light', () => {
  const input = { ...litRoom(30), red: undefined, green: undefined, blue: undefined };
  const model = got(runModel(input));
  const by = (output: string, cause: string) =>
    model.outputs.find(({ id }) => id === output)!.sensitivities[
      model.components.findIndex(({ id }) => id === cause)
    ]!;
  const value = (output: string) => model.outputs.find(({ id }) => id === output)!.value;
  // On paper: Φ = s·(…), so ∂Φ/∂s = Φ at s = 1; of a quotient of two points of one field it cancels.
  expect(by('white', 'spectral:white') / value('white')).toBeCloseTo(1, 12);
  expect(by('uniformity', 'spectral:white')).toBeCloseTo(0, 12);
  expect(by('contrast', 'spectral:black') / value('contrast')).toBeCloseTo(-1, 12);
  // On paper: 2.304 m² of image; 1 lx of room more is 0.97 lx of white less.
  expect(by('white', 'ambient') / (1.92 * 1.2)).toBeCloseTo(-0.97, 12);
});
