import { describe, expect, it } from 'vitest';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { got } from './outcome';
import { typicalRun } from './runs';

/** An image of 3 m by 1.5 m, white read once at two points: 900 lx in the mean. All else is unknown. */
const UNKNOWN: RunInput = {
  image: { width: 3, height: 1.5 },
  meter: {},
  white: { repeats: [[1000, 800]] },
};
const textsOf = (input: RunInput) => got(runModel(input)).notes.map(({ text }) => text);

describe('what is unknown of a run', () => {
  it('is told cause by cause', () =>
    expect(textsOf({ ...UNKNOWN, placing: {}, linearity: {}, red: { repeats: [[200, 160]] } })).toEqual([
      'The meter accuracy is unknown: ± 20 % of the reading, the total error of class C of DIN 5032-7:1985, the widest assumed.',
      'The meter digits is unknown: ± 10 digits assumed.',
      'The step of the display is unknown: 1 on the display assumed.',
      'The repeatability of the white readings is unknown: 1 % of each reading, because no point was read twice assumed.',
      // What both fields have in common stands once.
      'The placing of the meter is unknown: ± 1 % of each reading assumed.',
      'The linearity of the meter is unknown: ± 2 % between fields assumed.',
      'The repeatability of the red readings is unknown: 1 % of each reading, because no point was read twice assumed.',
      'The spectral mismatch in white is unknown: ± 2 % assumed.',
      'The spectral mismatch in red is unknown: ± 7 % assumed.',
      'The ambient light is unknown: 0 lx ± 9 lx (1 % of white), because it was not measured assumed.',
      'The uncertainty of the image width is unknown: ± 15 mm assumed.',
      'The uncertainty of the image height is unknown: ± 10 mm assumed.',
      'The image not square is unknown: ± 1 % of the area assumed.',
      'The drift is unknown: ± 2 %, because the centre was not read again at the end assumed.',
    ]));

  it('is nothing where everything is stated', () => {
    const stated: RunInput = {
      ...typicalRun(),
      placing: { half: 0.01 },
      linearity: { half: 0.005 },
      room: { half: 0.016 },
      sensor: { throwDistance: 2, height: 0.025 },
      oblique: { f2: 0.02 },
    };
    expect(textsOf(stated)).toEqual([]);
  });

  /** Sine of the mean angle on paper: 2 ÷ 9 of 3 m across and half of 1.5 m down, seen from so far. */
  const sine = (metres: number) => Math.sin(Math.atan(Math.hypot(2 / 3, 0.75) / metres));

  // On paper: the half-width that is counted is the one that is told.
  it.each<[string, Partial<RunInput>, string, number, string]>([
    [
      'accuracy, class B: 10 %',
      { meter: { meterClass: 'B' } },
      'gain',
      0.1,
      'meter accuracy is unknown: ± 10 % of the reading, the total error of class B of DIN 5032-7:1985',
    ],
    [
      'accuracy, no class: 20 % of C',
      {},
      'gain',
      0.2,
      'meter accuracy is unknown: ± 20 % of the reading, the total error of class C of DIN 5032-7:1985, the widest',
    ],
    [
      'ambient, not measured: 1 % of 900 lx',
      {},
      'ambient',
      9,
      'ambient light is unknown: 0 lx ± 9 lx (1 % of white), because it was not measured',
    ],
    [
      'ambient of 3 lx, range and digits unknown: 0.3 lx and 10 steps of 1 lx',
      { ambient: { value: 3 } },
      'ambient',
      10.3,
      "uncertainty of the ambient light is unknown: ± 10.3 lx (a tenth of it and the meter's digits)",
    ],
    [
      'ambient of 3 lx, range unknown: 0.3 lx and 4 digits of 0.5, each 10 lx',
      { ambient: { value: 3 }, meter: { digits: 4, digit: 0.5, luxPerUnit: 10 } },
      'ambient',
      20.3,
      "uncertainty of the ambient light is unknown: ± 20.3 lx (a tenth of it and the meter's digits)",
    ],
    [
      'ambient of 3 lx in two ranges: 0.3 lx and half a step of the coarser, 0.5 × 10 lx',
      {
        ambient: { value: 3, range: [1, 10] },
        meter: { digit: 0.1, digitByRange: [{ range: 10, digit: 0.5 }] },
      },
      'ambient',
      2.8,
      'uncertainty of the ambient light is unknown: ± 2.8 lx (a tenth of it and half a step of the display)',
    ],
    ['width of 3 m: 0.5 %', {}, 'width', 0.015, 'uncertainty of the image width is unknown: ± 15 mm'],
    [
      'height of 1.5 m: not below 10 mm',
      {},
      'height',
      0.01,
      'uncertainty of the image height is unknown: ± 10 mm',
    ],
    ['square', {}, 'square', 0.01, 'image not square is unknown: ± 1 % of the area'],
    [
      'drift',
      {},
      'drift:white',
      0.02,
      'drift is unknown: ± 2 %, because the centre was not read again at the end',
    ],
    [
      'screen of gain 1.2: a tenth of it',
      { screen: { gain: 1.2 } },
      'screen',
      0.12,
      'uncertainty of the screen gain is unknown: ± 0.12',
    ],
    [
      'lens and sensor: 2 × 25 mm ÷ 3 m',
      { sensor: {} },
      'sensor',
      0.05 / 3,
      "distance of the lens is unknown: the image's width, so that a sensor 25 mm in front of the screen reads up to 1.67 % too much; that is",
    ],
    [
      // 1000 × 0.0041 is 4.1000000000000005.
      'lens, a sensor of 4.1 mm: 2 × 4.1 mm ÷ 3 m',
      { sensor: { height: 0.0041 } },
      'sensor',
      0.0082 / 3,
      "distance of the lens is unknown: the image's width, so that a sensor 4.1 mm in front of the screen reads up to 0.273 % too much; that is",
    ],
    [
      'sensor, the lens 2 m away: 2 × (25 mm and 3 % of it) ÷ 2 m',
      { sensor: { throwDistance: 2 } },
      'sensor',
      0.02575,
      'height of the sensor is unknown: up to 25 mm in front of the screen',
    ],
    [
      'oblique light, class B, the lens as far away as 3 m are wide',
      { oblique: {}, meter: { meterClass: 'B' } },
      'oblique',
      0.03 * 1.52 * sine(3),
      'cosine response of the meter is unknown: f2 = 3 %',
    ],
    [
      'oblique light, no class, the lens 5 m away',
      { oblique: {}, sensor: { throwDistance: 5, height: 0.02 } },
      'oblique',
      0.06 * 1.52 * sine(5),
      'cosine response of the meter is unknown: f2 = 6 %',
    ],
    [
      'room',
      { room: {} },
      'room',
      0.01,
      'light that the room sends back is unknown: ± 1 % of the light output',
    ],
  ])('%s', (_, change, id, half, told) => {
    const { components, notes } = got(runModel({ ...UNKNOWN, ...change }));
    expect(components.find((component) => component.id === id)?.halfWidth).toBeCloseTo(half, 12);
    expect(notes.map(({ text }) => text)).toContain(`The ${told} assumed.`);
  });

  it.each<[string, Partial<RunInput>, string, number]>([
    ['f2', { oblique: { f2: 0.02 } }, 'oblique', 0.02 * 1.52 * sine(3)],
    ['room', { room: { half: 0.016 } }, 'room', 0.016],
    ['screen', { screen: { gain: 1.2, half: 0.05 } }, 'screen', 0.05],
    ['ambient', { ambient: { value: 3, half: 0.5 } }, 'ambient', 0.5],
  ])('stated, it is counted as stated: %s', (_, change, id, half) => {
    const { components, notes } = got(runModel({ ...UNKNOWN, ...change }));
    expect(components.find((component) => component.id === id)?.halfWidth).toBeCloseTo(half, 12);
    const unchanged = textsOf(UNKNOWN).filter((text) => id !== 'ambient' || !text.includes('ambient'));
    expect(notes.map(({ text }) => text)).toEqual(unchanged);
  });
});
