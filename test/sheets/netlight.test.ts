import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';
import { outputOf } from '../../src/metrology/model';
import { runModel } from '../../src/metrology/run/model';
import { batchPlan } from '../../src/sheets/batch';
import { defaultBatchSetup } from '../../src/sheets/batch/setup';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup, type MeterSetup, type RunSetup } from '../../src/sheets/runsetup';
import { spotPlan } from '../../src/sheets/spot';
import { writeXlsx } from '../../src/xlsx/write';
import { got } from '../metrology/outcome';
import { recalculate } from '../tools/libreoffice';
import { rangeNamed } from './named';
import { filled, type RandomRun } from './randomrun';
import { runInput } from './runinput';

/*
 * Worked by hand from how a meter works, past every formula of ours. A projector of exactly 640 lm in white and 640 lm in
 * red, green and blue together, on an image of 2 m × 1.25 m = 2.5 m²: 256 lx of white at every point, 64 lx of red,
 * 166.4 lx of green and 25.6 lx of blue; black is 2.56 lx (100 : 1), the board's tiles are 256 lx and 1.28 lx (200 : 1). The
 * room adds 20 lx to all of them.
 *
 * The meter needs × 1.02 by its certificate, × 1.03, 0.99 and 1.10 for the spectra of red, green and blue and × 1.015 for that
 * of white. Its sensor stands 20 mm in front of the screen, the lens 4 m away, so that it takes (4 ÷ 3.98)² as much of the
 * projector's light as the screen does. It shows (E_projector ÷ (s·f) + E_room) ÷ calibration, with f = (3.98 ÷ 4)².
 *
 * Taken off after the corrections, 20 lx of room would have left 20·(s·f − 1) lx too much: of blue 1.78 lx of 25.6, 7 %.
 */
const [CALIBRATION, ROOM] = [1.02, 20];
const S = { white: 1.015, red: 1.03, green: 0.99, blue: 1.1 };
const E = { white: 256, red: 64, green: 166.4, blue: 25.6 };
const PLACE = (3.98 / 4) ** 2;
const shown = (lux: number, s: number, f = PLACE) => (lux / (s * f) + ROOM) / CALIBRATION;
const grid = (n: number, rows = 3) => Array.from({ length: rows }, () => Array<number>(rows).fill(n));

const METER: MeterSetup = {
  ...defaultRunSetup().meter,
  digit: 0.01,
  calibration: CALIBRATION,
  corrections: S,
};
const IMAGE = { shape: 'rectangle', known: 'width', length: 2, unit: 'm', across: 16, down: 10 } as const;
const SETUP: RunSetup = {
  ...defaultRunSetup(),
  meter: METER,
  image: IMAGE,
  colour: 'full fields',
  black: true,
  checkerboard: true,
  corners: true,
  uncertainty: {
    ...defaultRunSetup().uncertainty,
    ofReading: 0.02,
    digits: 1,
    ambient: 0.2,
    throwDistance: 4,
    sensorHeight: 20,
  },
};
function typedIn(ambient: 'once' | 'nine points'): RandomRun['typed'] {
  const field = (stem: string, lux: number, s: number) => ({
    [`${stem}Readings`]: grid(shown(lux, s)),
    [`${stem}Range`]: grid(1),
  });
  const tile = (r: number, c: number) => ((r + c) % 2 === 0 ? 256 : 1.28);
  const last = shown(E.white, S.white);
  return {
    ...field('White', E.white, S.white),
    ...field('Red', E.red, S.red),
    ...field('Green', E.green, S.green),
    ...field('Blue', E.blue, S.blue),
    ...field('Black', 2.56, S.white),
    CornerReadings: grid(shown(200, S.white), 2),
    BoardReadings: [0, 1, 2, 3].map((r) => [0, 1, 2, 3].map((c) => shown(tile(r, c), S.white))),
    AmbientReadings: ambient === 'once' ? [[ROOM / CALIBRATION]] : grid(ROOM / CALIBRATION),
    LastReading: [[last]],
    LastRange: [[1]],
  };
}
/** By name, worked out from the light and nothing else. */
const TRUE = {
  WhiteLightOutput: 640,
  RedLightOutput: 160,
  GreenLightOutput: 416,
  BlueLightOutput: 64,
  ColourLightOutput: 640,
  ColourToWhite: 1,
  WhiteIlluminance: 256,
  FittedOutput: 640,
  UniformityMinMax: 1,
  UniformityMinMean: 1,
  DeviationPlus: 0,
  DeviationMinus: 200 / 256 - 1,
  CornersToCentre: 200 / 256,
  SequentialContrast: 100,
  SequentialContrastSeen: 276 / 22.56,
  BoardContrast: 200,
  BoardContrastSeen: 276 / 21.28,
} as const;

const call = (id: string, ...args: unknown[]) =>
  got(FUNCTIONS.find((record) => record.id === id)!.evaluate(args));

describe.each(['once', 'nine points'] as const)('640 lm in a room of 20 lx, ambient read %s', (mode) => {
  const setup: RunSetup = { ...SETUP, ambient: mode };
  const run: RandomRun = { setup, typed: typedIn(mode), plan: runPlan(setup, 'n1') };

  it('by the plain formulas of a run, recalculated by LibreOffice', async () => {
    const [book] = await recalculate([await writeXlsx(bookOf([filled(run)]), { cachedValues: false })]);
    const value = (name: string) => book!.sheets[0]!.cells[rangeNamed(run.plan, name)]?.value;
    for (const [name, expected] of Object.entries(TRUE)) {
      const came = value(`${name}Plain`);
      expect(typeof came, `${name}: ${came}`).toBe('number');
      expect(came as number, name).toBeCloseTo(expected, 8);
    }
    // The label says with ambient: so much light falls on the tiles.
    expect(value('BoardWhite') as number).toBeCloseTo(276, 9);
    expect(value('BoardBlack') as number).toBeCloseTo(21.28, 9);
  });

  it('by the functions', () => {
    const ambient = mode === 'once' ? [[ROOM]] : grid(ROOM);
    const tail = (s: number) => ['lx', 1, CALIBRATION, ambient, s * PLACE];
    const of = (name: keyof typeof E) => grid(shown(E[name], S[name]));
    expect(call('OUTPUT', of('white'), 2.5, ...tail(S.white))).toBeCloseTo(640, 9);
    expect(call('FITTEDOUTPUT', of('blue'), 2.5, ...tail(S.blue))).toBeCloseTo(64, 9);
    expect(call('MEANILLUMINANCE', of('green'), ...tail(S.green))).toBeCloseTo(166.4, 9);
    const colours = [of('red'), of('green'), of('blue'), 2.5, 'lx', 1, 1, 1];
    const meter = [CALIBRATION, CALIBRATION, CALIBRATION, ambient];
    const lights = [S.red, S.green, S.blue].map((s) => s * PLACE);
    expect(call('COLOUROUTPUT', ...colours, ...meter, ...lights)).toBeCloseTo(640, 9);
    const black = grid(shown(2.56, S.white));
    const contrast = [of('white'), black, 0.01, 'lx', 1, 1, CALIBRATION, ambient, 9, null, S.white * PLACE];
    expect(call('CONTRAST', ...contrast)).toBeCloseTo(100, 7);
    expect(call('CONTRAST', ...contrast, 'as seen')).toBeCloseTo(276 / 22.56, 9);
    const tiles = typedIn(mode).BoardReadings;
    const board = [tiles, 'white', 0.01, 'lx', 1, CALIBRATION, ROOM, 16, null, S.white * PLACE];
    expect(call('CHECKERBOARD', ...board)).toBeCloseTo(200, 8);
    expect(call('CHECKERBOARD', ...board, 'as seen')).toBeCloseTo(276 / 21.28, 9);
  });

  it('by the uncertainty model', () => {
    const model = got(runModel(runInput(run)));
    for (const [id, expected] of [
      ['white', 640],
      ['colour', 640],
      ['ratio', 1],
      ['blue', 64],
      ['uniformity', 1],
      ['contrast', 100],
      ['board', 200],
    ] as const)
      expect(outputOf(model, id).value, id).toBeCloseTo(expected, 8);
  });
});

describe('a batch and a spot check of the same unit', () => {
  const { throwDistance, sensorHeight } = SETUP.uncertainty;
  it('a line of a batch, by plain formulas in LibreOffice and by the function', async () => {
    const plan = batchPlan(
      {
        ...defaultBatchSetup(),
        meter: METER,
        image: IMAGE,
        readings: 'nine points in each colour',
        ambient: 'by row',
        uncertainty: { ...defaultBatchSetup().uncertainty, throwDistance, sensorHeight },
        units: [{ serial: 'N-1' }],
        lines: 1,
      },
      'n2',
    );
    const readings = (['white', 'red', 'green', 'blue'] as const).flatMap((name) =>
      Array<number>(9).fill(shown(E[name], S[name])),
    );
    const typed = { Readings: [readings], AmbientReadings: [[ROOM / CALIBRATION]] };
    const [book] = await recalculate([
      await writeXlsx(bookOf([filled({ plan, typed } as unknown as RandomRun)]), { cachedValues: false }),
    ]);
    const value = (name: string) =>
      book!.sheets[0]!.cells[rangeNamed(plan, name).split(':')[0]!]?.value as number;
    expect(value('UnitWhite')).toBeCloseTo(640, 8);
    expect(value('UnitColour')).toBeCloseTo(640, 8);
    expect(value('UnitBlue')).toBeCloseTo(64, 8);
    expect(value('UnitRatio')).toBeCloseTo(1, 10);
    const factors = [S.white, S.red, S.green, S.blue].map((s) => [CALIBRATION * s * PLACE]);
    const lights = [S.white, S.red, S.green, S.blue].map((s) => [s * PLACE]);
    const spread = [
      ...Array.from({ length: 6 }, (_, i) => [i === 1 ? 2 : 0, i === 1 ? 2 : 0]),
      [0, 0],
      [0, 0],
      [0, 0],
    ];
    const arguments_ = [
      [['N-1']],
      [readings],
      [[1]],
      [[ROOM]],
      2.5,
      factors,
      [[0], [0]],
      spread,
      null,
      lights,
    ];
    const [row] = call('BATCH', ...arguments_) as (number | string)[][];
    expect(row![0]).toBe('complete');
    expect(row![1]).toBeCloseTo(640, 9);
    expect(row![3]).toBeCloseTo(640, 9);
    expect(row!.at(-1)).toBeCloseTo(64, 9);
  });

  it('a spot check, in LibreOffice: the sensor of both units stands alike', async () => {
    const plan = spotPlan(
      {
        title: '',
        units: ['A', 'B'],
        reference: 'first',
        ambient: true,
        place: '',
        measuredBy: '',
        date: '',
        meter: METER,
      },
      'n3',
    );
    // B gives half of what A does, in every colour; A's ratio is 1, and so is B's.
    const both = (name: keyof typeof E) => [[shown(E[name], S[name], 1)], [shown(E[name] / 2, S[name], 1)]];
    const typed = {
      WhiteReadings: both('white'),
      RedReadings: both('red'),
      GreenReadings: both('green'),
      BlueReadings: both('blue'),
      AmbientReadings: [[ROOM / CALIBRATION]],
    };
    const [book] = await recalculate([
      await writeXlsx(bookOf([filled({ plan, typed } as unknown as RandomRun)]), { cachedValues: false }),
    ]);
    const second = (name: string) => {
      const at = rangeNamed(plan, name).split(':').at(-1)!;
      return book!.sheets[0]!.cells[at]?.value as number;
    };
    expect(second('BlueNet')).toBeCloseTo(12.8, 9);
    expect(second('WhiteRelative')).toBeCloseTo(0.5, 10);
    expect(second('ColourRelative')).toBeCloseTo(0.5, 10);
    expect(second('ColourToWhite')).toBeCloseTo(1, 10);
  });
});
