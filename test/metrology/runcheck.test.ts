import { describe, expect, it } from 'vitest';
import { runProblems } from '../../src/metrology/run/check';
import type { BoardInput, OtherInput, RunInput } from '../../src/metrology/run/input';
import { EXACT, flat, nine } from './runs';

/* What is said of numbers that a run cannot be evaluated with, word for word: which one, what it must be, what came. */

const said = (change: Partial<RunInput>) => runProblems({ ...EXACT, ...change });
const meter = (change: RunInput['meter']) => ({ meter: { ...EXACT.meter, ...change } });
const image = (change: Partial<RunInput['image']>) => ({ image: { ...EXACT.image, ...change } });
const white = (change: Partial<RunInput['white']>) => ({ white: { ...EXACT.white, ...change } });
const BOARD: BoardInput = { white: [500, 500], black: [5, 5] };
const board = (change: Partial<BoardInput>) => ({ board: { ...BOARD, ...change } });
const OWN: OtherInput = { label: 'own', half: 0.01, distribution: 'rectangular', appliesTo: 'all' };
const other = (change: Partial<OtherInput>) => ({ others: [{ ...OWN, ...change }] });
const ninth = (display: number | null) => [...nine(1000).slice(1), display];

it('nothing is said of a run that is sound, whatever of it is stated', () => {
  const sound: Partial<RunInput>[] = [
    {},
    { ambient: { value: nine(1), half: 0, range: nine(1), calibration: 1 } },
    { ambient: { value: 1, range: 10 }, drift: undefined },
    { ...board({ range: 1, correction: 1, blackSpectralHalf: 0 }), screen: { gain: 1, half: 0 } },
    { others: [OWN, { ...OWN, label: 'second', dof: 1, coverageFactor: 2, appliesTo: 'blue' }] },
    { repeatability: { part: 0.01, readings: 2 }, spectrum: { f1: 0, light: 'LED' } },
    white({ range: nine(10), repeats: [nine(0), [1, ...Array<null>(8).fill(null)]] }),
    { white: { repeats: [[1, 2, 3, 4]] }, red: undefined, green: undefined, blue: undefined },
  ];
  for (const change of sound) expect(said(change)).toEqual([]);
});

describe('what may be 0 and not less', () => {
  it.each<[string, Partial<RunInput>]>([
    ['half-width of the image width', image({ widthHalf: -0.1 })],
    ['half-width of the image height', image({ heightHalf: -0.1 })],
    ['half-width for an image that is not square', image({ squareHalf: -0.1 })],
    ["meter's fraction of the reading", meter({ ofReading: -0.1 })],
    ["meter's digits", meter({ digits: -0.1 })],
    ['step of the display', meter({ digit: -0.1 })],
    [
      'step of the display on range × 10',
      meter({
        digitByRange: [
          { range: 1, digit: 0 },
          { range: 10, digit: -0.1 },
        ],
      }),
    ],
    ['half-width of the white spectral correction', white({ spectralHalf: -0.1 })],
    ['white reading at point 9', white({ repeats: [ninth(-0.1)] })],
    ['white reading at point 9, repeat 2', white({ repeats: [nine(1), ninth(-0.1)] })],
    ['reading at white tile 2', board({ white: [500, -0.1] })],
    ['reading at black tile 1', board({ black: [-0.1] })],
    ['half-width of the black spectral correction', board({ blackSpectralHalf: -0.1 })],
    ['ambient illuminance', { ambient: { value: -0.1 } }],
    ['ambient illuminance at point 9', { ambient: { value: [...nine(1).slice(1), -0.1] } }],
    ['half-width of the ambient illuminance', { ambient: { value: 0, half: -0.1 } }],
    ["meter's f1′", { spectrum: { f1: -0.1 } }],
    ['half-width of the placing of the meter', { placing: { half: -0.1 } }],
    ["meter's f2", { oblique: { f2: -0.1 } }],
    ["half-width of the meter's linearity", { linearity: { half: -0.1 } }],
    ['half-width of the light the room sends back', { room: { half: -0.1 } }],
    ['height of the sensor', { sensor: { height: -0.1 } }],
    ['half-width of the screen gain', { screen: { gain: 1, half: -0.1 } }],
    ['half-width of "own"', other({ half: -0.1 })],
  ])('%s', (where, change) => {
    const message = `The ${where} must not be negative; it is -0.1.`;
    expect(said(change)).toEqual([{ kind: 'invalid', code: 'negative', where, message }]);
  });
});

describe('what must be greater than 0', () => {
  it.each<[string, Partial<RunInput>]>([
    ['image width', image({ width: 0 })],
    ['image height', image({ height: 0 })],
    ["meter's coverage factor", meter({ coverageFactor: 0 })],
    ['lux per unit of the display', meter({ luxPerUnit: 0 })],
    ['white range factor', white({ range: 0 })],
    ['white range factor', white({ range: [...nine(1).slice(1), 0] })],
    ['white correction', white({ correction: 0 })],
    ['checkerboard range factor', board({ range: 0 })],
    ['checkerboard correction', board({ correction: 0 })],
    ['ambient range factor', { ambient: { value: 1, range: 0 } }],
    ['ambient range factor', { ambient: { value: 1, range: [...nine(1).slice(1), 0] } }],
    ['calibration factor of the ambient reading', { ambient: { value: 1, calibration: 0 } }],
    ['repeatability of a reading', { repeatability: { part: 0 } }],
    ['throw distance', { sensor: { throwDistance: 0 } }],
    ['first centre reading', { drift: { first: 0, last: 1 } }],
    ['last centre reading', { drift: { first: 1, last: 0 } }],
    ['screen gain', { screen: { gain: 0 } }],
    ['coverage factor of "own"', other({ coverageFactor: 0 })],
  ])('%s', (where, change) => {
    const message = `The ${where} must be greater than 0; it is 0.`;
    expect(said(change)).toEqual([{ kind: 'invalid', code: 'out-of-bounds', where, message }]);
  });
});

it.each([1, 2])('a reading must be finite, in list %i as in any other', (list) => {
  const repeats = list === 1 ? [ninth(Number.POSITIVE_INFINITY)] : [nine(1), ninth(Number.POSITIVE_INFINITY)];
  const where = `white reading at point 9${list === 1 ? '' : ', repeat 2'}`;
  const message = `The ${where} must be a finite number; it is Infinity.`;
  expect(said(white({ repeats }))).toEqual([{ kind: 'invalid', code: 'not-a-number', where, message }]);
});

it('a point may lack in a repeat, not in the first list', () => {
  const where = 'white reading at point 9';
  const problem = { kind: 'missing', code: 'missing', where, message: `The ${where} is missing.` };
  expect(said(white({ repeats: [ninth(null), ninth(null)] }))).toEqual([problem]);
});

describe('degrees of freedom are at least 1', () => {
  it.each<[string, number, Partial<RunInput>]>([
    ['degrees of freedom of the repeatability', 0, { repeatability: { readings: 1 } }],
    ['degrees of freedom of "own"', 0.5, other({ dof: 0.5 })],
  ])('%s', (where, came, change) => {
    const message = `The ${where} must be at least 1; they are ${came}. One repeat alone says nothing about repeatability: take at least two.`;
    expect(said(change)).toEqual([{ kind: 'invalid', code: 'not-defined', where, message }]);
  });
});

describe('a choice that there is not is answered with those that there are', () => {
  const SHAPES = 'rectangular, triangular, normal, u-shaped';
  it.each<[string, string, Partial<RunInput>]>([
    ['meter class', 'L, A, B, C', meter({ meterClass: 'X' as 'A' })],
    ["distribution of the meter's accuracy", SHAPES, meter({ distribution: 'X' as 'normal' })],
    [
      'kind of light source',
      'lamp, laser phosphor, LED, RGB laser, unknown',
      { spectrum: { light: 'X' as 'LED' } },
    ],
    ['distribution of "own"', SHAPES, other({ distribution: 'X' as 'normal' })],
    ['what "own" applies to', 'all, colours, white, red, green, blue', other({ appliesTo: 'X' as 'all' })],
  ])('%s', (where, choices, change) => {
    const message = `The ${where} must be one of ${choices}; it is "X".`;
    expect(said(change)).toEqual([{ kind: 'invalid', code: 'choice', where, message }]);
  });

  it('black, which no light output is told of, is none of them', () => {
    const [problem] = said(other({ appliesTo: 'black' as 'all' }));
    expect(problem!.message).toContain('red, green, blue; it is "black".');
  });

  it('two lines of the user under one label are told apart by nobody', () => {
    expect(said({ others: [OWN, { ...OWN, half: 0.02 }] })).toEqual([
      {
        kind: 'invalid',
        code: 'choice',
        where: 'other components',
        message: 'Other components need labels of their own.',
      },
    ]);
  });
});

describe('how many numbers there must be, and how many came', () => {
  const lists = (name: string, points: number, came: string) => [
    `${name} readings`,
    `The ${name} readings must be one or more lists of ${points} numbers; they are ${came}.`,
  ];
  const four = { white: { repeats: [[1, 2, 3, 4]] }, green: undefined, blue: undefined };
  it.each<[string, Partial<RunInput>, string[]]>([
    ['eight readings of red', { red: { repeats: [nine(1).slice(1)] } }, lists('red', 9, '8')],
    ['a repeat of eight', { red: { repeats: [nine(1), nine(1).slice(1)] } }, lists('red', 9, '9, 8')],
    ['red of nine where white has four', { ...four, red: flat(1) }, lists('red', 4, '9, 9')],
    ['no white, and nothing against the nine of red', white({ repeats: [] }), lists('white', 9, 'none')],
    ['a white list that is empty', white({ repeats: [[]] }), lists('white', 9, '0')],
    [
      'two range factors of nine',
      white({ range: [1, 10] }),
      ['white ranges', 'There must be one white range factor, or 9; there are 2.'],
    ],
    [
      'three ambient illuminances of nine',
      { ambient: { value: [1, 2, 3] } },
      ['ambient illuminance', 'There must be one ambient illuminance, or 9; there are 3.'],
    ],
    ...[1, 8, 10].map((n): [string, Partial<RunInput>, [string, string]] => [
      `${n} ambient range factors of nine`,
      { ambient: { value: 1, range: Array.from({ length: n }, () => 10) } },
      ['ambient ranges', `There must be one ambient range factor, or 9; there are ${n}.`],
    ]),
    [
      'nine ambient illuminances of four',
      { ...four, red: undefined, ambient: { value: nine(1) } },
      ['ambient illuminance', 'There must be one ambient illuminance, or 4; there are 9.'],
    ],
  ])('%s', (_, change, [where, message]) => {
    expect(said(change)).toEqual([{ kind: 'invalid', code: 'shape', where, message }]);
  });

  it.each(['white', 'black'] as const)('no %s tiles of the board', (kind) => {
    const message = `The checkerboard has no readings of its ${kind} tiles.`;
    expect(said(board({ [kind]: [] }))).toEqual([
      { kind: 'missing', code: 'missing', where: 'checkerboard', message },
    ]);
  });
});
