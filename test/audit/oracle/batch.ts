import { cellsNamed } from '../../../src/audit/kinds/cells';
import { setupOf } from '../../../src/audit/setupof';
import { gridOf, type SheetView, valueAt } from '../../../src/audit/view';
import { coverageFactor } from '../../../src/metrology/coverage';
import { DECISION_RULES } from '../../../src/metrology/rules';
import {
  AMBIENT_FRACTION,
  AMBIENT_UNMEASURED,
  CLASS_F1,
  CLASS_F2,
  CLASS_LINEARITY,
  CLASS_TOTAL,
  DIGITS,
  DRIFT,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  PLACING,
  REPEATABILITY,
  ROOM,
  SENSOR_HEIGHT,
  SENSOR_HEIGHT_HALF,
  SPECTRAL_PER_F1,
  SQUARE,
  THROW_HALF,
  WORST_CLASS,
} from '../../../src/metrology/run/defaults';
import { METER_STATEMENTS } from '../../../src/metrology/words';
import { imageSize, quadrilateral } from '../../../src/photometry/image';
import { all, bad, chain, good, missing, type Outcome } from '../../../src/photometry/outcome';
import { LUX, METRES } from '../../../src/photometry/units';
import {
  BATCH_KEYS,
  type BatchReadings,
  countOf,
  fieldsOf,
  hasColour,
  isCentre,
  pointsOf,
} from '../../../src/procurement/batch/columns';
import type { BatchTerms, Spread } from '../../../src/procurement/batch/row';
import { batchRow } from '../../../src/procurement/batch/row';
import { cellName, rectOf } from '../../../src/sheets/address';
import type { BatchAmbient } from '../../../src/sheets/batch/setup';
import type { CellValue } from '../../../src/sheets/book';
import type { CellName } from '../../../src/sheets/names/all';
import { stemOf } from '../../../src/sheets/names/stem';
import type { Plan } from '../../../src/sheets/plan';
import type { RunSetup } from '../../../src/sheets/runsetup';

/*
 * The independent opinion on a batch: every row worked out from what was typed by the functions of photometry and
 * metrology, past all formulas of the sheet.
 */

/** What of a batch decides its layout. */
export interface BatchShape {
  readonly readings: BatchReadings;
  readonly ambient: BatchAmbient;
  readonly shape: 'rectangle' | 'four sides';
  readonly lines: number;
}

/** A result as a cell would show it. */
type Recomputed = Outcome<number | string>;

/** Image in metres; the area is the true one where the image is no rectangle. */
interface Size {
  readonly width: number;
  readonly height: number;
  readonly area: number;
}

function sizeOf({ image }: RunSetup): Outcome<Size> {
  const m = METRES[image.unit];
  if (image.shape === 'rectangle') {
    const { known, length, across, down } = image;
    return imageSize(known, length * m, { across, down });
  }
  const { top, right, bottom, left, falling, rising } = image;
  const sides = {
    top: top * m,
    right: right * m,
    bottom: bottom * m,
    left: left * m,
    falling: falling * m,
    rising: rising * m,
  };
  return chain(quadrilateral(sides), ({ area }) =>
    good({ width: (sides.top + sides.bottom) / 2, height: (sides.left + sides.right) / 2, area }),
  );
}

/** What all rows share, from what was typed and past all formulas. */
interface SharedTerms {
  readonly terms: BatchTerms;
  /** Of the causes that all rows share; for white, and for colour where it is read. */
  readonly white: SharedPart;
  readonly colour?: SharedPart;
}
interface SharedPart {
  readonly u: number;
  readonly dof: number;
  readonly k: number;
}

/** Guess of the repeatability: good to a quarter of itself, ν = 8 (GUM G.4.2). */
const REPEATABILITY_DOF = 8;

function typedIn(view: SheetView, name: CellName): CellValue {
  return gridOf(view, name)[0]?.[0] ?? null;
}

function numberOf(view: SheetView, name: CellName): number | undefined {
  const value = typedIn(view, name);
  return typeof value === 'number' ? value : undefined;
}

/** Lux per step of the display before spectral corrections. */
function luxPerStep(view: SheetView): Outcome<number> {
  const calibration = numberOf(view, 'CalibrationFactor');
  if (calibration === undefined || !(calibration > 0)) return lacks('calibration factor');
  return good(LUX[typedIn(view, 'MeterUnit') === 'fc' ? 'fc' : 'lx'] * calibration);
}

function lacks<T>(what: string): Outcome<T> {
  return bad(missing(what, `The ${what} is missing.`));
}

const SIDES = [
  'SideTop',
  'SideRight',
  'SideBottom',
  'SideLeft',
  'DiagonalFalling',
  'DiagonalRising',
] as const;
const LENGTHS = { rectangle: ['ImageLength', 'AspectAcross', 'AspectDown'], 'four sides': SIDES } as const;

function imageOf(view: SheetView, shape: BatchShape['shape']): Outcome<Size> {
  const lengths: readonly CellName[] = LENGTHS[shape];
  const isWhole = lengths.every((name) => (numberOf(view, name) ?? 0) > 0);
  return isWhole ? sizeOf(setupOf(view)) : lacks('image');
}

function sharedTerms(view: SheetView, shape: BatchShape): Outcome<SharedTerms> {
  const { readings } = shape;
  const one = (name: CellName) => numberOf(view, name);
  const fields = fieldsOf(readings);
  const rule = DECISION_RULES.find((each) => each === typedIn(view, 'DecisionRule'));
  if (!rule) return lacks('decision rule');
  const level = one('Level');
  if (level === undefined) return lacks('level of confidence');
  const image = isCentre(readings) ? good({ width: 1, height: 1, area: 0 }) : imageOf(view, shape.shape);
  const nearer = isCentre(readings) ? 1 : sensorFactor(view);
  const factors = chain(luxPerStep(view), (perStep) =>
    all(
      fields.map((field): Outcome<number> => {
        const spectral = one(`${stemOf(field)}Spectral`);
        return spectral !== undefined && spectral > 0
          ? good(perStep * spectral * nearer)
          : lacks(`correction for ${field}`);
      }),
    ),
  );
  // Calibration bears on ambient light as well, the rest on the projector's alone.
  const lights = fields.map((field) => (one(`${stemOf(field)}Spectral`) ?? 1) * nearer);
  return chain(image, (size) =>
    chain(factors, (each) =>
      chain(all(partsOf(view, shape, size, level, lights)), ([white, colour]) => {
        const spread = (of: 'white' | 'colour', part: SharedPart) =>
          spreadOf(view, shape, each, lights, of, part);
        return good({
          white: white!,
          ...(colour ? { colour } : {}),
          terms: {
            readings,
            area: size.area,
            factors: each,
            lights,
            reference: {
              white: one('WhiteReference') || undefined,
              colour: one('ColourReference') || undefined,
              whiteOutput: one('WhiteReferenceOutput') || undefined,
              colourOutput: one('ColourReferenceOutput') || undefined,
            },
            limits: {
              white: limitOf(view, readings, 'White'),
              ...(colour ? { colour: limitOf(view, readings, 'Colour') } : {}),
            },
            white: spread('white', white!),
            ...(colour ? { colour: spread('colour', colour) } : {}),
            rule,
          },
        });
      }),
    ),
  );
}

function limitOf(view: SheetView, readings: BatchReadings, id: 'White' | 'Colour'): number | undefined {
  const [rated, part] = [numberOf(view, `Rated${id}`), numberOf(view, 'MinimumFraction')];
  if (isCentre(readings)) return part || undefined;
  return rated === undefined || part === undefined ? undefined : rated * part || undefined;
}

/** Root sum of squares of what bears on all rows alike, its degrees of freedom and k: for white, then for colour. */
function partsOf(
  view: SheetView,
  { readings, ambient, shape }: BatchShape,
  size: Size,
  level: number,
  lights: readonly number[],
): Outcome<SharedPart>[] {
  const used = (name: CellName, otherwise: number) => numberOf(view, name) ?? otherwise;
  const length = (name: CellName, metres: number) =>
    used(name, 1000 * Math.max(LENGTH_LEAST, LENGTH_FRACTION * metres)) / 1000 / metres;
  const isDark = ambient === 'none' && numberOf(view, 'AmbientHalf') === undefined;
  const judged = hasColour(readings) ? (['white', 'colour'] as const) : (['white'] as const);
  return judged.map((of) => {
    const dark = isDark ? AMBIENT_UNMEASURED * takenOff(lights, of) : 0;
    const other = used('OtherHalf', 0);
    const [scatter, placing] = [used('RepeatPart', REPEATABILITY), used('PlacingHalf', PLACING)];
    const linear = used('LinearityHalf', CLASS_LINEARITY[classOf(view)]);
    const [width, height] = [length('WidthHalf', size.width), length('HeightHalf', size.height)];
    // Against a reference unit what was read twice counts twice, and what both readings share cancels.
    const repeatability = isCentre(readings) ? scatter * Math.SQRT2 : scatter / Math.sqrt(9);
    const halves = isCentre(readings)
      ? [...[placing, linear, DRIFT, dark].map((half) => half * Math.SQRT2), other]
      : [
          // As a rectangle, whatever it is stated as.
          used('MeterOfReading', CLASS_TOTAL[classOf(view)]) * (Math.sqrt(3) / divisorOf(view)),
          ...(of === 'white' ? [mismatchOf(view, 'white'), placing / 3, linear] : []),
          // One length is measured of a rectangle.
          shape === 'rectangle' ? width + height : Math.hypot(width, height),
          used('SquareHalf', SQUARE),
          DRIFT,
          sensorHalf(view, size),
          obliqueHalf(view, size),
          used('RoomHalf', ROOM),
          dark,
          other,
        ];
    const u = Math.sqrt(repeatability ** 2 + halves.reduce((sum, half) => sum + half ** 2 / 3, 0));
    const dof = (REPEATABILITY_DOF * u ** 4) / repeatability ** 4;
    return chain(coverageFactor(dof, { level, rounding: 'truncate' }), (k) => good({ u, dof, k }));
  });
}

/** How often ambient light is taken off: once a field, with what corrects the field's light. */
const takenOff = ([white, ...primaries]: readonly number[], of: 'white' | 'colour') =>
  of === 'white' ? white! : primaries.reduce((sum, light) => sum + light, 0);

/** Divisor of the percentage by what it was stated as (GUM 4.3.3, 4.3.7, 4.3.9); what is assumed is a limit. */
function divisorOf(view: SheetView): number {
  const which = METER_STATEMENTS.map(String).indexOf(String(typedIn(view, 'MeterStatement')));
  if (numberOf(view, 'MeterOfReading') === undefined) return Math.sqrt(3);
  return [Math.sqrt(3), 2, Math.sqrt(6)][Math.max(0, which)]!;
}

/** By the index f1′ of the meter and the kind of light. */
function mismatchOf(view: SheetView, field: 'white' | 'red' | 'green' | 'blue'): number {
  const typed = numberOf(view, `${stemOf(field)}Mismatch`);
  if (typed !== undefined) return typed;
  const kind = typedIn(view, 'LightSource') as keyof typeof SPECTRAL_PER_F1;
  const times = (SPECTRAL_PER_F1[kind] ?? SPECTRAL_PER_F1.unknown)[field];
  return Math.min(1, times * (numberOf(view, 'MeterF1') ?? CLASS_F1[classOf(view)]));
}

/** Sensor and lens, in metres from the screen; undefined where they are not stated. */
function distances(view: SheetView) {
  const mm = numberOf(view, 'SensorHeight');
  return { lens: numberOf(view, 'ThrowDistance'), sensor: mm === undefined ? undefined : mm / 1000 };
}

/** Inverse square: the sensor is nearer to the lens than the screen. */
function sensorFactor(view: SheetView): number {
  const { lens, sensor } = distances(view);
  return lens === undefined || sensor === undefined ? 1 : ((lens - sensor) / lens) ** 2;
}

function sensorHalf(view: SheetView, { width }: Size): number {
  const { lens, sensor } = distances(view);
  const from = sensor ?? SENSOR_HEIGHT;
  if (lens === undefined) return (2 * from) / width;
  const doubt = sensor === undefined ? SENSOR_HEIGHT : SENSOR_HEIGHT_HALF;
  return (2 * (doubt + THROW_HALF * from)) / lens;
}

/** Mean distance of the nine points from a lens that is level with the image's edge, as an angle. */
function obliqueHalf(view: SheetView, { width, height }: Size): number {
  const f2 = numberOf(view, 'MeterF2') ?? CLASS_F2[classOf(view)];
  const aside = Math.hypot((2 / 9) * width, height / 2);
  return f2 * 1.52 * Math.sin(Math.atan2(aside, distances(view).lens ?? width));
}

function classOf(view: SheetView): keyof typeof CLASS_TOTAL {
  const found = typedIn(view, 'MeterClass');
  return found === 'L' || found === 'A' || found === 'B' ? found : WORST_CLASS;
}

/** What a row's U is made of. */
function spreadOf(
  view: SheetView,
  { readings, ambient }: BatchShape,
  factors: readonly number[],
  lights: readonly number[],
  of: 'white' | 'colour',
  { u, k }: SharedPart,
): Spread {
  const one = (name: CellName) => numberOf(view, name);
  const stated = one(of === 'white' ? 'WhiteStatedU' : 'ColourStatedU');
  const both = isCentre(readings) ? Math.SQRT2 : 1;
  const own = of === 'white' ? factors.slice(0, 1) : factors.slice(1);
  const sum = own.reduce((total, factor) => total + factor, 0);
  const squares = own.reduce((total, factor) => total + factor ** 2, 0);
  const step = one('MeterDigit') ?? 0;
  const digits = one('MeterDigits') ?? DIGITS;
  const half = one('AmbientHalf');
  const perUnit = LUX[typedIn(view, 'MeterUnit') === 'fc' ? 'fc' : 'lx'];
  const room = (both * takenOff(lights, of)) / Math.sqrt(3);
  const isMeasured = ambient !== 'none';
  return {
    ...(stated === undefined ? {} : { stated }),
    k,
    shared: u,
    digits:
      both * Math.sqrt((sum * digits * step) ** 2 / 3 + ((step / 2) ** 2 / 3 / pointsOf(readings)) * squares),
    ambient: room * (half ?? (isMeasured ? digits * step * perUnit : 0)),
    ambientPart: half === undefined && isMeasured ? room * AMBIENT_FRACTION : 0,
    own: (['red', 'green', 'blue'] as const).map((field) => {
      if (isCentre(readings)) return 0;
      const linear = one('LinearityHalf') ?? CLASS_LINEARITY[classOf(view)];
      // Nine readings are placed one by one.
      const placing = (one('PlacingHalf') ?? PLACING) / Math.sqrt(9);
      return Math.hypot(mismatchOf(view, field), linear, placing) / Math.sqrt(3);
    }),
  };
}

/** Ambient illuminance of each line, lx; an empty text where it is still to be read. */
function ambientLux(view: SheetView, { ambient, lines }: BatchShape): (i: number) => CellValue {
  if (ambient === 'none') return () => 0;
  const lux = luxPerStep(view);
  const perStep = lux.ok ? lux.value : undefined;
  if (ambient === 'by row') {
    const readings = gridOf(view, 'AmbientReadings');
    return (i) => {
      const reading = readings[i]?.[0];
      return lines > i && typeof reading === 'number' && reading >= 0 && perStep !== undefined
        ? reading * perStep
        : '';
    };
  }
  const [reading, range] = [typedIn(view, 'AmbientReadings'), typedIn(view, 'AmbientRange')];
  const isRead = typeof reading === 'number' && typeof range === 'number' && range > 0;
  const once = isRead && perStep !== undefined ? reading * range * perStep : '';
  return () => once;
}

/** Every result of a batch by its cell: what all rows share, and each row by plain formula and by function. */
export function recomputeBatch(view: SheetView, plan: Plan, shape: BatchShape): Map<string, Recomputed> {
  const { readings, lines } = shape;
  const shared = sharedTerms(view, shape);
  const found = new Map<string, Recomputed>();
  for (const [id, of] of [
    ['White', 'white'],
    ['Colour', 'colour'],
  ] as const) {
    const part = chain(shared, (terms) => good(terms[of]));
    if (part.ok && !part.value) continue;
    for (const [suffix, what] of [
      ['SharedU', 'u'],
      ['Dof', 'dof'],
      ['K', 'k'],
    ] as const) {
      const value: Recomputed = chain(part, (one) => good(one![what]));
      for (const end of ['', 'Plain'] as const) {
        const at = cellsNamed(plan, `${id}${suffix}${end}`)[0];
        if (at !== undefined) found.set(at, value);
      }
    }
  }
  const ambient = ambientLux(view, shape);
  const cells = (name: CellName) => cellsNamed(plan, name).map((at) => valueAt(view, at));
  const [serials, ranges, typed] = [cells('Serials'), cells('RangeFactors'), cells('Readings')];
  const first = rectOf(cellsNamed(plan, 'UnitState')[0]!);
  const table = cellsNamed(plan, 'FunctionTable');
  const keys = BATCH_KEYS[readings];
  const wide = countOf(readings);
  for (let i = 0; i < lines; i++) {
    const row = chain(shared, ({ terms }) =>
      good(
        batchRow(terms, {
          serial: serials[i],
          readings: typed.slice(i * wide, (i + 1) * wide),
          range: ranges[i],
          ambient: ambient(i),
        }),
      ),
    );
    keys.forEach((key, k) => {
      const value = chain(row, (own) => good(own[key] ?? ''));
      found.set(cellName(first.row + i, first.column + k), value);
      found.set(table[i * keys.length + k]!, value);
    });
  }
  return found;
}
