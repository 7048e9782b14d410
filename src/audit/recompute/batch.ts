import { coverageFactor } from '../../metrology/coverage';
import { DECISION_RULES } from '../../metrology/rules';
import {
  AMBIENT_FRACTION,
  AMBIENT_UNMEASURED,
  CLASS_TOTAL,
  DIGITS,
  DRIFT,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  REPEATABILITY,
  SPECTRAL,
  SQUARE,
  WORST_CLASS,
} from '../../metrology/run/defaults';
import { all, bad, chain, good, missing, type Outcome } from '../../photometry/outcome';
import { LUX } from '../../photometry/units';
import { type BatchReadings, fieldsOf, hasColour, isCentre, pointsOf } from '../../procurement/batch/columns';
import type { BatchTerms, Spread } from '../../procurement/batch/row';
import type { BatchAmbient } from '../../sheets/batch/setup';
import type { CellValue } from '../../sheets/book';
import type { CellName } from '../../sheets/names/all';
import { stemOf } from '../../sheets/names/stem';
import { setupOf } from '../setupof';
import { gridOf, type SheetView } from '../view';
import { sizeOf } from './run';
import type { Size } from './uncertainty';

/** What of a batch decides its layout. */
export interface BatchShape {
  readonly readings: BatchReadings;
  readonly ambient: BatchAmbient;
  readonly shape: 'rectangle' | 'four sides';
  readonly lines: number;
}

/** What all rows share, from what was typed and past all formulas. */
export interface SharedTerms {
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

export function typedIn(view: SheetView, name: CellName): CellValue {
  return gridOf(view, name)[0]?.[0] ?? null;
}

function numberOf(view: SheetView, name: CellName): number | undefined {
  const value = typedIn(view, name);
  return typeof value === 'number' ? value : undefined;
}

/** Lux per step of the display before spectral corrections. */
export function luxPerStep(view: SheetView): Outcome<number> {
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

export function sharedTerms(view: SheetView, shape: BatchShape): Outcome<SharedTerms> {
  const { readings } = shape;
  const one = (name: CellName) => numberOf(view, name);
  const fields = fieldsOf(readings);
  const rule = DECISION_RULES.find((each) => each === typedIn(view, 'DecisionRule'));
  if (!rule) return lacks('decision rule');
  const level = one('Level');
  if (level === undefined) return lacks('level of confidence');
  const image = isCentre(readings) ? good({ width: 1, height: 1, area: 0 }) : imageOf(view, shape.shape);
  const factors = chain(luxPerStep(view), (perStep) =>
    all(
      fields.map((field): Outcome<number> => {
        const spectral = one(`${stemOf(field)}Spectral`);
        return spectral !== undefined && spectral > 0
          ? good(perStep * spectral)
          : lacks(`correction for ${field}`);
      }),
    ),
  );
  return chain(image, (size) =>
    chain(factors, (each) =>
      chain(all(partsOf(view, shape, size, level)), ([white, colour]) => {
        const spread = (of: 'white' | 'colour', part: SharedPart) => spreadOf(view, shape, each, of, part);
        return good({
          white: white!,
          ...(colour ? { colour } : {}),
          terms: {
            readings,
            area: size.area,
            factors: each,
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
  { readings, ambient }: BatchShape,
  size: Size,
  level: number,
): Outcome<SharedPart>[] {
  const used = (name: CellName, otherwise: number) => numberOf(view, name) ?? otherwise;
  const length = (name: CellName, metres: number) =>
    used(name, 1000 * Math.max(LENGTH_LEAST, LENGTH_FRACTION * metres)) / 1000 / metres;
  const isDark = ambient === 'none' && numberOf(view, 'AmbientHalf') === undefined;
  const judged = hasColour(readings) ? (['white', 'colour'] as const) : (['white'] as const);
  return judged.map((of) => {
    const dark = isDark ? AMBIENT_UNMEASURED * (of === 'colour' ? 3 : 1) : 0;
    const other = used('OtherHalf', 0);
    // Against a reference unit what was read twice counts twice, and what both readings share cancels.
    const repeatability = isCentre(readings) ? REPEATABILITY * Math.SQRT2 : REPEATABILITY / Math.sqrt(9);
    const halves = isCentre(readings)
      ? [DRIFT * Math.SQRT2, dark * Math.SQRT2, other]
      : [
          used('MeterOfReading', CLASS_TOTAL[classOf(view)]),
          of === 'white' ? used('WhiteMismatch', SPECTRAL.white) : 0,
          length('WidthHalf', size.width),
          length('HeightHalf', size.height),
          used('SquareHalf', SQUARE),
          DRIFT,
          dark,
          other,
        ];
    const u = Math.sqrt(repeatability ** 2 + halves.reduce((sum, half) => sum + half ** 2 / 3, 0));
    const dof = (REPEATABILITY_DOF * u ** 4) / repeatability ** 4;
    return chain(coverageFactor(dof, { level, rounding: 'truncate' }), (k) => good({ u, dof, k }));
  });
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
  // Ambient light is taken off each field once.
  const room = (both * own.length) / Math.sqrt(3);
  const isMeasured = ambient !== 'none';
  return {
    ...(stated === undefined ? {} : { stated }),
    k,
    shared: u,
    digits:
      both * Math.sqrt((sum * digits * step) ** 2 / 3 + ((step / 2) ** 2 / 3 / pointsOf(readings)) * squares),
    ambient: room * (half ?? (isMeasured ? digits * step * perUnit : 0)),
    ambientPart: half === undefined && isMeasured ? room * AMBIENT_FRACTION : 0,
    own: (['red', 'green', 'blue'] as const).map((field) =>
      isCentre(readings) ? 0 : (one(`${stemOf(field)}Mismatch`) ?? SPECTRAL[field]) / Math.sqrt(3),
    ),
  };
}
