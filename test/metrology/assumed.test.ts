import { describe, expect, it } from 'vitest';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { got } from './outcome';

/** An image of 3 m by 1.5 m, white read once at two points: 900 lx in the mean. All else is unknown. */
const UNKNOWN: RunInput = {
  image: { width: 3, height: 1.5 },
  meter: {},
  white: { repeats: [[1000, 800]] },
};

describe('what is unknown of a run counts by a cautious default', () => {
  /** Sine of the mean angle on paper: 2 ÷ 9 of 3 m across and half of 1.5 m down, seen from so far. */
  const sine = (metres: number) => Math.sin(Math.atan(Math.hypot(2 / 3, 0.75) / metres));

  // The half-widths on paper.
  it.each<[string, Partial<RunInput>, string, number]>([
    ['accuracy, class B: 10 %', { meter: { meterClass: 'B' } }, 'gain', 0.1],
    ['accuracy, no class: 20 % of C', {}, 'gain', 0.2],
    ['ambient, not measured: 1 % of 900 lx', {}, 'ambient', 9],
    [
      'ambient of 3 lx, range and digits unknown: 0.3 lx and 10 steps of 1 lx',
      { ambient: { value: 3 } },
      'ambient',
      10.3,
    ],
    [
      'ambient of 3 lx, range unknown: 0.3 lx and 4 digits of 0.5, each 10 lx',
      { ambient: { value: 3 }, meter: { digits: 4, digit: 0.5, luxPerUnit: 10 } },
      'ambient',
      20.3,
    ],
    [
      'ambient of 3 lx in two ranges: 0.3 lx and half a step of the coarser, 0.5 × 10 lx',
      {
        ambient: { value: 3, range: [1, 10] },
        meter: { digit: 0.1, digitByRange: [{ range: 10, digit: 0.5 }] },
      },
      'ambient',
      2.8,
    ],
    ['width of 3 m: 0.5 %', {}, 'width', 0.015],
    ['height of 1.5 m: not below 10 mm', {}, 'height', 0.01],
    ['square', {}, 'square', 0.01],
    ['drift', {}, 'drift:white', 0.02],
    ['screen of gain 1.2: a tenth of it', { screen: { gain: 1.2 } }, 'screen', 0.12],
    ['lens and sensor: 2 × 25 mm ÷ 3 m', { sensor: {} }, 'sensor', 0.05 / 3],
    ['lens, a sensor of 4.1 mm: 2 × 4.1 mm ÷ 3 m', { sensor: { height: 0.0041 } }, 'sensor', 0.0082 / 3],
    [
      'sensor, the lens 2 m away: 2 × (25 mm and 3 % of it) ÷ 2 m',
      { sensor: { throwDistance: 2 } },
      'sensor',
      0.02575,
    ],
    [
      'oblique light, class B, the lens as far away as 3 m are wide',
      { oblique: {}, meter: { meterClass: 'B' } },
      'oblique',
      0.03 * 1.52 * sine(3),
    ],
    [
      'oblique light, no class, the lens 5 m away',
      { oblique: {}, sensor: { throwDistance: 5, height: 0.02 } },
      'oblique',
      0.06 * 1.52 * sine(5),
    ],
    ['room', { room: {} }, 'room', 0.01],
  ])('%s', (_, change, id, half) => {
    const { components } = got(runModel({ ...UNKNOWN, ...change }));
    expect(components.find((component) => component.id === id)?.halfWidth).toBeCloseTo(half, 12);
  });

  it.each<[string, Partial<RunInput>, string, number]>([
    ['f2', { oblique: { f2: 0.02 } }, 'oblique', 0.02 * 1.52 * sine(3)],
    ['room', { room: { half: 0.016 } }, 'room', 0.016],
    ['screen', { screen: { gain: 1.2, half: 0.05 } }, 'screen', 0.05],
    ['ambient', { ambient: { value: 3, half: 0.5 } }, 'ambient', 0.5],
  ])('stated, it is counted as stated: %s', (_, change, id, half) => {
    const { components } = got(runModel({ ...UNKNOWN, ...change }));
    expect(components.find((component) => component.id === id)?.halfWidth).toBeCloseTo(half, 12);
  });
});
