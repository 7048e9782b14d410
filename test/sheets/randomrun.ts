import { FUNCTIONS } from '../../src/functions/table';
import { LIGHT_SOURCES, METER_STATEMENTS } from '../../src/metrology/words';
import { type Primary, patternShowing } from '../../src/photometry/tiles';
import { cellsOf } from '../../src/sheets/address';
import type { Plan } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';
import { blackDoubts } from '../metrology/blackdoubts';
import { centresOf, placeFactor, runInput } from './runinput';
import { type RandomRun, repeatsOf } from './typedrun';

export type { RandomRun };

/** Mulberry32: a small generator with a seed, so that a failing run can be made again. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const pick = <T>(draw: () => number, choices: readonly T[]): T =>
  choices[Math.floor(draw() * choices.length)]!;

/** Light of an invented projector on the screen, in lux, at the nine points of each field. */
function lightOf(draw: () => number): Record<string, number[]> {
  const white = 200 + draw() * 2500;
  const shares = { red: 0.15 + draw() * 0.1, green: 0.4 + draw() * 0.25, blue: 0.04 + draw() * 0.06 };
  const field = (level: number) => Array.from({ length: 9 }, () => level * (0.75 + draw() * 0.3));
  return {
    White: field(white),
    Red: field(white * shares.red),
    Green: field(white * shares.green),
    Blue: field(white * shares.blue),
    Black: field(draw() < 0.3 ? 0.001 : white / 800),
    Corner: field(white * 0.7).slice(0, 4),
  };
}

export function randomRun(seed: number): RandomRun {
  const draw = random(seed);
  const unit = pick(draw, ['lx', 'fc'] as const);
  const setup: RunSetup = {
    ...defaultRunSetup(),
    projector: `Unit ${seed} (invented)`,
    meter: {
      ...defaultRunSetup().meter,
      unit,
      digit: pick(draw, [0.1, 1]),
      calibration: 0.97 + Math.round(draw() * 60) / 1000,
      corrections: {
        white: pick(random(seed + 7000), [1, 1.03, 0.97]),
        red: 1.038,
        green: 0.985,
        blue: 1.116,
      },
    },
    image: pick(draw, [
      { shape: 'rectangle', known: 'height', length: 1.2, unit: 'm', across: 4, down: 3 },
      { shape: 'rectangle', known: 'width', length: 160 + draw() * 80, unit: 'cm', across: 16, down: 10 },
      { shape: 'rectangle', known: 'diagonal', length: 60 + draw() * 60, unit: 'in', across: 16, down: 9 },
      {
        shape: 'four sides',
        unit: 'm',
        top: 1.61,
        right: 0.91,
        bottom: 1.6,
        left: 0.9,
        falling: 1.84,
        rising: 1.842,
      },
    ] as const),
    gain: pick(draw, [1, 0.8, 1.3]),
    standard: pick(draw, ['BT.709', 'BT.2020', 'P3-D65']),
    colour: pick(draw, ['full fields', 'tiled patterns'] as const),
    ambient: pick(draw, ['none', 'once', 'nine points'] as const),
    black: draw() < 0.7,
    checkerboard: draw() < 0.5,
    corners: draw() < 0.5,
    repeats: pick(draw, [1, 1, 2, 3, 5]),
    rated: {
      white: Math.round(300 + draw() * 2500),
      minimumFraction: 0.8,
      ...(draw() < 0.5 ? { colour: Math.round(200 + draw() * 1800) } : {}),
    },
    uncertainty: {
      ...uncertaintyFor(draw),
      ...meterFor(seed),
      gain: seed % 2 === 0 ? 0.08 : undefined,
    },
  };
  const { spectral } = setup.uncertainty;
  // Asked for only where something black is read.
  if (spectral && (setup.black || setup.checkerboard)) Object.assign(spectral, { black: 0.03 });
  return {
    setup,
    plan: runPlan(setup, `r${seed}`),
    typed: withRoom(setup, typedFor(setup, lightOf(draw), draw, seed % 4 === 0), random(seed + 5000)),
  };
}

/** What further is known of the meter; drawn apart, so that the other draws stay what they were. */
function meterFor(seed: number): Partial<RunSetup['uncertainty']> {
  const draw = random(seed + 9000);
  const known = <T>(value: T): T | undefined => (draw() < 0.5 ? value : undefined);
  return { f2: known(0.02), repeatability: known(0.003), repeatabilityReadings: known(10) };
}

/** Some inputs known, some left to the sheet's cautious values. */
function uncertaintyFor(draw: () => number): RunSetup['uncertainty'] {
  const known = <T>(value: T): T | undefined => (draw() < 0.5 ? value : undefined);
  return {
    meterClass: pick(draw, ['unknown', 'L', 'A', 'B', 'C'] as const),
    ofReading: known(0.03),
    statement: pick(draw, METER_STATEMENTS),
    light: pick(draw, LIGHT_SOURCES),
    f1: known(0.04),
    placing: known(0.007),
    linearity: known(0.006),
    room: known(0.012),
    throwDistance: known(pick(draw, [0.5, 2.4])),
    sensorHeight: known(25),
    digits: known(pick(draw, [2, 4, 5])),
    spectral: draw() < 0.5 ? { white: 0.01, red: 0.04, green: 0.015, blue: 0.12 } : undefined,
    width: known(4),
    height: known(5),
    square: known(0.004),
    ambient: known(0.3),
    other: known(0.01),
    level: pick(draw, [0.9545, 0.95, 0.99]),
    rule: pick(draw, ['guard band U: four outcomes', 'guard band U: pass or fail', 'no guard band'] as const),
  };
}

/** What a person would read off the display for that light, and in which range. */
function typedFor(setup: RunSetup, light: Record<string, number[]>, draw: () => number, isMixed: boolean) {
  const typed: Record<string, (number | string)[][]> = {};
  const toDisplay = (lux: number, range: number) => {
    const display = lux / (setup.meter.unit === 'fc' ? 10.76391 : 1) / range;
    return Math.max(0, Math.round(display / setup.meter.digit)) * setup.meter.digit;
  };
  const rows = <T>(flat: T[], columns: number) =>
    Array.from({ length: flat.length / columns }, (_, r) => flat.slice(r * columns, (r + 1) * columns));
  const grid = (name: string, rangeName: string, lux: readonly number[], columns: number) => {
    const range = pick(draw, [1, 1, 10]);
    // Some people change the range within a grid.
    const ranges = lux.map((_, i) => (isMixed && i % 2 === 0 ? 10 / range : range));
    typed[name] = rows(
      lux.map((e, i) => Math.max(toDisplay(e, ranges[i]!), name.startsWith('Black') ? 0 : setup.meter.digit)),
      columns,
    );
    typed[rangeName] = rows(ranges, columns);
  };
  grid('WhiteReadings', 'WhiteRange', light.White!, 3);
  if (setup.colour === 'full fields') {
    for (const stem of ['Red', 'Green', 'Blue']) grid(`${stem}Readings`, `${stem}Range`, light[stem]!, 3);
  } else {
    ['A', 'B', 'C'].forEach((letter, pattern) => {
      const lux = Array.from({ length: 9 }, (_, i) => {
        const [r, c] = [Math.floor(i / 3), i % 3];
        const shown = (['red', 'green', 'blue'] as const).find((p) => patternShowing(p, r, c) === pattern)!;
        return light[shown[0]!.toUpperCase() + shown.slice(1)]![i]!;
      });
      grid(`Pattern${letter}`, `Pattern${letter}Range`, lux, 3);
    });
  }
  if (setup.black) grid('BlackReadings', 'BlackRange', light.Black!, 3);
  if (setup.corners) grid('CornerReadings', 'CornerRange', light.Corner!, 2);
  // Ambient below every reading: one step of the display at most.
  const ambient = () => (draw() < 0.5 ? 0 : setup.meter.digit);
  if (setup.ambient === 'once') typed.AmbientReadings = [[ambient()]];
  if (setup.ambient === 'nine points') typed.AmbientReadings = rows(Array.from({ length: 9 }, ambient), 3);
  if (setup.checkerboard) {
    const level = light.White![4]!;
    typed.BoardReadings = rows(
      Array.from(
        { length: 16 },
        (_, i) => toDisplay((Math.floor(i / 4) + i) % 2 === 0 ? level : level / 150, 1) + setup.meter.digit,
      ),
      4,
    );
  }
  for (const name of Object.keys(typed).filter((n) =>
    /^(White|Red|Green|Blue)Readings$|^Pattern[ABC]$/.test(n),
  )) {
    const stem = name.replace('Readings', '');
    for (let k = 2; k <= setup.repeats; k++) {
      typed[`${stem}Repeat${k}`] = typed[name]!.map((row) =>
        row.map((n) =>
          Math.max(setup.meter.digit, (n as number) + Math.round(draw() * 4 - 2) * setup.meter.digit),
        ),
      );
    }
  }
  const last = (typed.WhiteReadings![1]![1] as number) + Math.round(6 * draw() - 3) * setup.meter.digit;
  typed.LastReading = [[Math.max(setup.meter.digit, last)]];
  typed.LastRange = [[typed.WhiteRange![1]![1] as number]];
  return typed;
}

/** In many of the runs with an ambient reading, seldom where black is read, the room gives a good part of the darkest lit reading; drawn apart from all else. */
function withRoom(setup: RunSetup, typed: RandomRun['typed'], draw: () => number): RandomRun['typed'] {
  if (!typed.AmbientReadings || draw() < (typed.BlackReadings ? 0.75 : 0.2)) return typed;
  const lit = Object.keys(typed).filter((name) => /^(White|Red|Green|Blue|Pattern[ABC])/.test(name));
  const least = Math.min(
    ...lit
      .filter((name) => !name.endsWith('Range'))
      .flatMap((name) => {
        const ranges = typed[`${name.replace(/Re(adings|peat\d)$/, '')}Range`]!.flat();
        return typed[name]!.flat().map((n, i) => Number(n) * Number(ranges[i]));
      }),
  );
  const ambient = typed.AmbientReadings.map((row) =>
    row.map(() => Math.floor(((0.2 + 0.6 * draw()) * least) / setup.meter.digit) * setup.meter.digit),
  );
  // What is dark is lit by the room as well.
  const { digit } = setup.meter;
  const room = ambient.flat();
  const withLight = (name: string, range: (i: number) => number) =>
    typed[name]
      ? {
          [name]: typed[name].map((row, r) =>
            row.map((n, c) => {
              const i = r * row.length + c;
              return Number(n) + Math.round(room[i % room.length]! / range(i) / digit) * digit;
            }),
          ),
        }
      : {};
  const ranges = typed.BlackRange?.flat() ?? [];
  return {
    ...typed,
    AmbientReadings: ambient,
    ...withLight('BlackReadings', (i) => Number(ranges[i])),
    ...withLight('BoardReadings', () => 1),
  };
}

/** The plan with everything typed in. */
export function filled({ plan, typed }: RandomRun): Plan {
  const cells = { ...plan.cells };
  for (const [name, values] of Object.entries(typed)) {
    const range = plan.names.find((n) => n.name === name)?.range;
    if (!range) throw new Error(`The plan has no ${name}`);
    cellsOf(range).forEach((at, i) => {
      cells[at] = { ...cells[at]!, value: values.flat()[i]! };
    });
  }
  return { ...plan, cells };
}

/** A function's value, or the words by which the sheet's plain formula refuses the same input. */
function call(id: string, ...args: unknown[]): unknown {
  const outcome = FUNCTIONS.find((record) => record.id === id)!.evaluate(args);
  if (outcome.ok) return outcome.value;
  if (outcome.problems.every(({ code }) => code === 'ambient-exceeds')) return 'see remarks';
  throw new Error(`${id}: ${outcome.problems.map(({ message }) => message).join(' ')}`);
}

/** Mean of a grid's repeats, as the functions get it. */
function meansOf({ setup, typed }: RandomRun, name: string, stem = name.replace('Readings', '')): number[][] {
  const grids = repeatsOf({ setup, typed }, name, stem);
  return grids[0]!.map((row, r) =>
    row.map((_, c) => grids.reduce((sum, grid) => sum + grid[r]![c]!, 0) / grids.length),
  );
}

/** What the custom functions say of a run, from what was typed and not from any cell. Results by name. */
export function byFunctions(run: RandomRun): Record<string, number | string> {
  const { setup, typed } = run;
  const { meter, image } = setup;
  const area =
    image.shape === 'rectangle'
      ? (
          call('IMAGESIZE', image.known, image.length, `${image.across}:${image.down}`, image.unit) as (
            | string
            | number
          )[][]
        )[3]![1]
      : call(
          'FOURSIDEDAREA',
          image.top,
          image.right,
          image.bottom,
          image.left,
          image.falling,
          image.rising,
          image.unit,
        );
  const ambient =
    setup.ambient === 'none'
      ? 0
      : typed.AmbientReadings!.map((row) =>
          row.map((n) => call('ILLUMINANCE', n, meter.unit, 1, meter.calibration) as number),
        );
  const flat = typeof ambient === 'number' ? [ambient] : ambient.flat();
  const ambientMean = flat.reduce((a, b) => a + b, 0) / flat.length;
  const light = (p: Primary | 'white') => meter.corrections[p] * placeFactor(setup.uncertainty);
  const readings: Record<string, { cells: unknown[][]; ranges: unknown }> = {
    White: { cells: meansOf(run, 'WhiteReadings'), ranges: typed.WhiteRange },
  };
  for (const [stem, primary] of [
    ['Red', 'red'],
    ['Green', 'green'],
    ['Blue', 'blue'],
  ] as const) {
    readings[stem] =
      setup.colour === 'full fields'
        ? { cells: meansOf(run, `${stem}Readings`), ranges: typed[`${stem}Range`] }
        : {
            cells: call(
              'TILED',
              meansOf(run, 'PatternA'),
              meansOf(run, 'PatternB'),
              meansOf(run, 'PatternC'),
              primary,
            ) as unknown[][],
            ranges: call('TILED', typed.PatternARange, typed.PatternBRange, typed.PatternCRange, primary),
          };
  }
  const results: Record<string, number | string> = {};
  const set = (name: string, value: unknown) => {
    results[name] = value as number | string;
  };
  const tail = (stem: string, p: Primary | 'white') => [
    meter.unit,
    readings[stem]!.ranges,
    meter.calibration,
    ambient,
    light(p),
  ];
  /** Of ratios, in which what corrects the light cancels. */
  const bare = tail('White', 'white').slice(0, -1);
  for (const [stem, p] of [
    ['White', 'white'],
    ['Red', 'red'],
    ['Green', 'green'],
    ['Blue', 'blue'],
  ] as const) {
    set(`${stem}LightOutput`, call('OUTPUT', readings[stem]!.cells, area, ...tail(stem, p)));
  }
  const [r, g, b] = [readings.Red!, readings.Green!, readings.Blue!];
  set(
    'ColourLightOutput',
    call(
      'COLOUROUTPUT',
      r.cells,
      g.cells,
      b.cells,
      area,
      meter.unit,
      r.ranges,
      g.ranges,
      b.ranges,
      meter.calibration,
      meter.calibration,
      meter.calibration,
      ambient,
      light('red'),
      light('green'),
      light('blue'),
    ),
  );
  set('ColourToWhite', call('RATIO', results.ColourLightOutput, results.WhiteLightOutput));
  const balance = call(
    'BALANCE',
    results.RedLightOutput,
    results.GreenLightOutput,
    results.BlueLightOutput,
    setup.standard,
  ) as number[][];
  ['Red', 'Green', 'Blue'].forEach((stem, i) => {
    set(`${stem}Share`, balance[i + 1]![1]!);
    set(`${stem}ShareStandard`, call('STANDARDSHARE', setup.standard, stem.toLowerCase()));
  });
  const white = readings.White!.cells;
  set('WhiteIlluminance', call('MEANILLUMINANCE', white, ...tail('White', 'white')));
  set('FittedOutput', call('FITTEDOUTPUT', white, area, ...tail('White', 'white')));
  set('ScreenLuminance', call('LUMINANCE', results.WhiteIlluminance, setup.gain));
  set('ScreenFootlamberts', call('LUMINANCE', results.WhiteIlluminance, setup.gain, 'fL'));
  set('UniformityMinMax', call('UNIFORMITY', white, 'min/max', ...bare));
  set('UniformityMinMean', call('UNIFORMITY', white, 'min/mean', ...bare));
  if (setup.corners) {
    const nearest =
      Array.isArray(ambient) && ambient.length === 3
        ? [
            [ambient[0]![0], ambient[0]![2]],
            [ambient[2]![0], ambient[2]![2]],
          ]
        : ambient;
    const args = [
      white,
      typed.CornerReadings,
      meter.unit,
      typed.WhiteRange,
      typed.CornerRange,
      meter.calibration,
      ambient,
      nearest,
    ];
    set('DeviationPlus', call('DEVIATION', ...args, 'plus'));
    set('DeviationMinus', call('DEVIATION', ...args, 'minus'));
    set('CornersToCentre', call('CORNERS', ...args));
  }
  const doubts = blackDoubts(runInput(run));
  const luxPerStep = (range: number) =>
    meter.digit * range * (meter.unit === 'fc' ? 1 / 0.3048 ** 2 : 1) * meter.calibration * light('white');
  if (setup.black) {
    const step = luxPerStep(Math.max(...(typed.BlackRange!.flat() as number[])));
    const args = [
      white,
      typed.BlackReadings,
      step,
      meter.unit,
      typed.WhiteRange,
      typed.BlackRange,
      meter.calibration,
      ambient,
      9,
    ];
    set('SequentialContrast', call('CONTRAST', ...args, doubts.contrast, light('white')));
    set('SequentialContrastSeen', call('CONTRAST', ...args, null, light('white'), 'as seen'));
  }
  if (setup.checkerboard) {
    const args = [
      typed.BoardReadings,
      'white',
      luxPerStep(1),
      meter.unit,
      1,
      meter.calibration,
      ambientMean,
      16,
    ];
    set('BoardContrast', call('CHECKERBOARD', ...args, doubts.board, light('white')));
    set('BoardContrastSeen', call('CHECKERBOARD', ...args, null, light('white'), 'as seen'));
  }
  const { first, last } = centresOf(run);
  set('Drift', first > 0 && last > 0 ? call('DRIFT', first, last) : 'see remarks');
  return results;
}
