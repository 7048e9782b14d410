import {
  AMBIENT_FRACTION,
  AMBIENT_UNMEASURED,
  CLASS_F1,
  CLASS_F2,
  CLASS_LINEARITY,
  CLASS_TOTAL,
  DIGITS,
  DRIFT,
  GAIN,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  PLACING,
  REPEATABILITY,
  ROOM,
  SPECTRAL_PER_F1,
  SQUARE,
} from '../../metrology/run/defaults';
import type { FieldName } from '../../metrology/run/input';
import type { Bounds } from '../../photometry/bounds';
import { PRIMARIES } from '../../photometry/tiles';
import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { cellOf, type Field, refusalOf, within } from '../setup/cell';
import { type NumberField, type PathOfKind, SETUP_FIELDS } from '../setup/fields';
import { valueAt } from '../setup/path';
import { FIELD_WHY } from '../setup/why';
import { type DerivedLine, putDerived, putLine } from './derived';
import { putDigits } from './digits';
import { putBlackDoubts, putMixture } from './doubts';
import { putExtremes } from './extremes';
import { FORMAT } from './layout';
import { DOF_ASSUMED } from './lines/line';
import { percent } from './percent';
import { putScatter, putTileScatter } from './scatter';
import { OBLIQUE_LINE, SENSOR_LINE } from './sensor';
import type { BoardCells, BudgetStem, FieldCells } from './stems';

/** A half-width that may be left out: what is typed, what is used instead, and the words that say so. */
export interface Known {
  readonly label: string;
  /** `${name}` is the input, `${name}Used` what counts. */
  readonly name: string;
  readonly value: number | undefined;
  readonly unit: string;
  readonly format: string;
  readonly bounds: Bounds;
  /** Formula without "=" of the cautious value. */
  readonly assumed: string;
  readonly because: string;
  /** What its number is; a half-width unless said otherwise. */
  readonly what?: string;
  readonly why: string;
}

/** What of a set-up decides what may be known. */
export type KnowableSetup = Pick<RunSetup, 'uncertainty' | 'colour' | 'ambient' | 'black' | 'checkerboard'>;
type KnowablePath = Exclude<PathOfKind<'number'> & `uncertainty.${string}`, 'uncertainty.level'>;

/** By the class of the meter, the widest where it is unknown; without "=". */
const byClass = ({ L, A, B, C }: Readonly<Record<'L' | 'A' | 'B' | 'C', number>>) =>
  `IF(MeterClass="L",${L},IF(MeterClass="A",${A},IF(MeterClass="B",${B},${C})))`;

/** A mismatch by f1′ and the kind of light source; black leaks white. */
function mismatchOf(field: FieldName): string {
  const of = (kind: keyof typeof SPECTRAL_PER_F1) =>
    SPECTRAL_PER_F1[kind][field === 'black' ? 'white' : field];
  const times = (['lamp', 'laser phosphor', 'LED', 'RGB laser'] as const).reduceRight(
    (rest, kind) => `IF(LightSource="${kind}",${of(kind)},${rest})`,
    String(of('unknown')),
  );
  return `MIN(1,${times}*MeterF1Used)`;
}

/** Everything about a run that may be known or assumed. */
export function knowns(setup: KnowableSetup): Known[] {
  const { colour, ambient, black, checkerboard } = setup;
  const known = (
    path: KnowablePath,
    assumed: string,
    because: string,
    shown: Partial<Pick<Known, 'unit' | 'format'>> = {},
  ): Known => {
    const { label, name, bounds, unit }: NumberField = SETUP_FIELDS[path];
    const value = valueAt(setup, path);
    const format = unit === '%' ? FORMAT.percent : FORMAT.general;
    return {
      label,
      name: name!,
      value,
      unit,
      format,
      bounds,
      assumed,
      because,
      why: FIELD_WHY[path]!,
      ...shown,
    };
  };
  const spectral = (field: FieldName) =>
    known(
      `uncertainty.spectral.${field}`,
      mismatchOf(field),
      MISMATCH_WORDS[
        field === 'white' && colour !== 'none' ? 'added' : field === 'black' ? 'black' : 'other'
      ],
      { unit: 'of reading' },
    );
  const length = (side: 'width' | 'height') =>
    known(
      `uncertainty.${side}`,
      `MAX(${LENGTH_LEAST * 1000},${LENGTH_FRACTION * 1000}*Image${side === 'width' ? 'Width' : 'Height'})`,
      `assumed: ${percent(LENGTH_FRACTION)} of it, at least ${LENGTH_LEAST * 1000} mm`,
      { format: '0.0' },
    );
  return [
    known(
      'uncertainty.ofReading',
      byClass(CLASS_TOTAL),
      'assumed: total error of the class above, the widest if unknown (DIN 5032-7:1985)',
      { unit: 'of reading' },
    ),
    known(
      'uncertainty.digits',
      String(DIGITS),
      `assumed: ± ${DIGITS} digits, as hand-held meters often state`,
    ),
    known(
      'uncertainty.f1',
      byClass(CLASS_F1),
      'assumed: that of the class above, C if unknown (DIN 5032-7:1985)',
      { unit: 'of V(λ)' },
    ),
    known(
      'uncertainty.f2',
      byClass(CLASS_F2),
      'assumed: that of the class above, C if unknown (DIN 5032-7:1985)',
      { unit: 'index' },
    ),
    spectral('white'),
    ...(colour === 'none' ? [] : PRIMARIES.map(spectral)),
    ...(black || checkerboard ? [spectral('black')] : []),
    length('width'),
    length('height'),
    known(
      'uncertainty.square',
      String(SQUARE),
      `assumed: ± ${percent(SQUARE)}, the limit for squaring the image`,
      { unit: 'of area' },
    ),
    known(
      'uncertainty.ambient',
      ambient === 'none'
        ? `IF(COUNT(WhiteNet)<9,"",${AMBIENT_UNMEASURED}*AVERAGE(WhiteNet))`
        : `IF(COUNT(AmbientMean)=0,"",${AMBIENT_FRACTION}*AmbientMean+MeterDigit*LuxPerUnit*MAX(AmbientRange)/2)`,
      ambient === 'none'
        ? `assumed: ${percent(AMBIENT_UNMEASURED)} of white, because it was not measured`
        : 'assumed: a tenth of it and half a step of the display',
      { format: FORMAT.lux },
    ),
    {
      ...known(
        'uncertainty.repeatability',
        String(REPEATABILITY),
        `assumed: ${percent(REPEATABILITY)}; it counts where no point is read twice`,
        { unit: 'of reading' },
      ),
      what: 'Standard deviation',
    },
    known(
      'uncertainty.placing',
      String(PLACING),
      `assumed: ± ${percent(PLACING)}: a tilt of 5° and a centimetre or two in an uneven image`,
      { unit: 'of reading' },
    ),
    known(
      'uncertainty.linearity',
      byClass(CLASS_LINEARITY),
      'assumed: the step between ranges of the class above, C if unknown (DIN 5032-7:1985)',
      { unit: 'of reading' },
    ),
    known(
      'uncertainty.room',
      String(ROOM),
      `assumed: ± ${percent(ROOM)}, half of what a room with light walls sends back`,
      { unit: 'of output' },
    ),
    known('uncertainty.gain', String(GAIN), `assumed: ± ${percent(GAIN)}, as data sheets give it`, {
      unit: 'of gain',
    }),
    known('uncertainty.other', '0', 'none stated', { unit: 'of output' }),
  ];
}

const MISMATCH_WORDS = {
  added: 'assumed: by f1′ and light source; counts for light that white has beyond red + green + blue',
  black: 'assumed: as for white, by f1′ and light source',
  other: 'assumed: by f1′ and light source, what meters of such f1′ read wrong (computed)',
} as const;

/** How well the scatter of one reading is known. */
const REPEAT_LINE: DerivedLine = {
  label: 'Degrees of freedom, repeatability',
  name: 'RepeatNu',
  formula: `=IF(COUNT(RepeatPart,RepeatCount)<2,${DOF_ASSUMED},RepeatCount-1)`,
  format: '0',
  unit: 'ν',
  words: 'of that standard deviation: readings less one, or 8 where it is a guess',
};

/** Writes what the uncertainty rests on, from `row` on; returns the first row below it. */
export function putUncertainty(
  b: PlanBuilder,
  row: number,
  setup: RunSetup,
  cells: FieldCells,
  board: BoardCells | undefined,
): number {
  b.put(`A${row}`, { role: 'heading', value: 'What is uncertain' });
  b.wide(`B${row}:C${row}`, { role: 'heading', value: 'as known' });
  b.put(`D${row}`, { role: 'heading', value: 'unit' });
  b.wide(`E${row}:F${row}`, { role: 'heading', value: 'as used' });
  b.wide(`G${row}:P${row}`, { role: 'heading', value: 'leave empty what you do not know' });
  let r = row + 1;
  putField(b, r++, cellOf('uncertainty.meterClass', setup), 'D');
  putField(b, r++, cellOf('uncertainty.statement', setup), 'D');
  putField(b, r++, cellOf('uncertainty.light', setup), 'D');
  putField(b, r++, cellOf('uncertainty.throwDistance', setup), 'C', 'm');
  putField(b, r++, cellOf('uncertainty.sensorHeight', setup), 'C', 'mm');
  putField(b, r++, cellOf('uncertainty.repeatabilityReadings', setup), 'C', 'readings');
  putField(b, r++, cellOf('uncertainty.meterCheck', setup), 'P');
  const first = r;
  for (const known of knowns(setup)) putKnown(b, r++, known);
  for (const line of [SENSOR_LINE, OBLIQUE_LINE]) {
    b.height(r, 26);
    putLine(b, r++, line);
  }
  putLine(b, r++, REPEAT_LINE);
  if (setup.colour !== 'none') putMixture(b, r++);
  const fields = Object.entries(cells) as [BudgetStem, readonly (readonly string[])[]][];
  for (const [stem, points] of fields) putScatter(b, r++, stem, points, stem === 'Black' ? 1 : setup.repeats);
  if (board) r = putTileScatter(b, r, board);
  putDerived(
    b,
    r++,
    'Drift over the run ±',
    'DriftHalf',
    `=IF(ISNUMBER(DriftPlain),ABS(DriftPlain),${DRIFT})`,
    FORMAT.percent,
    'of output',
    `=IF(ISNUMBER(DriftPlain),"the whole change of the centre reading","assumed: ± ${percent(DRIFT)}, no last reading of the centre that counts")`,
  );
  b.innerName('CauseLabels', `A${first}:A${r - 1}`, 'What is uncertain, cause by cause');
  b.name(
    'CauseStatus',
    `G${first}:G${r - 1}`,
    'Whether each cause was entered, found from readings or assumed',
  );
  putField(b, r++, levelOf(setup), 'C');
  putField(b, r++, cellOf('uncertainty.rule', setup), 'D');
  r = putExtremes(b, r, setup);
  r = putDigits(b, r, setup);
  return putBlackDoubts(b, r, setup);
}

/** What is said to a half-width that cannot be one. */
export function refusalOfKnown(bounds: Bounds, format: string): string {
  const isPart = format.endsWith('%');
  return `A number ${within(bounds, isPart)}${isPart ? ', such as 3 %' : ''}, or nothing.`;
}

/** About how many small letters fit the columns of the words. */
const LINE = 72;

function putKnown(
  b: PlanBuilder,
  row: number,
  { label, name, value, unit, format, bounds, assumed, because, why, what = 'Half-width' }: Known,
): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:C${row}`, { role: 'input', format, ...(value === undefined ? {} : { value }) });
  b.put(`D${row}`, { role: 'unit', value: unit });
  b.wide(`E${row}:F${row}`, {
    role: 'derived',
    formula: `=IF(ISNUMBER(B${row}),B${row},${assumed})`,
    format,
  });
  b.wide(`G${row}:P${row}`, { role: 'check', formula: `=IF(ISNUMBER(B${row}),"as entered","${because}")` });
  if (because.length > LINE) b.height(row, 26);
  b.name(name, `B${row}`, label).innerName(`${name}Used`, `E${row}`, `${label} as used`);
  const title = label.slice(0, 32);
  b.validate({
    range: `B${row}`,
    rule: { type: 'number', ...bounds },
    prompt: { title, message: `${why} ${what}, in the unit to the right. Leave empty if unknown.` },
    refusal: {
      title,
      message: refusalOfKnown(bounds, format),
      style: 'stop',
    },
  });
}

/** The level's cell: its two decimals tell 95.45 % from 95 %. */
export function levelOf(setup: Pick<RunSetup, 'uncertainty'>): Field {
  return { ...cellOf('uncertainty.level', setup), format: '0.00 %' };
}

function putField(b: PlanBuilder, row: number, field: Field, last: string, unit?: string): void {
  const { label, name, value, rule, why, format } = field;
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:${last}${row}`, {
    role: rule.type === 'list' ? 'choice' : 'input',
    ...(value === undefined ? {} : { value }),
    ...(format ? { format } : {}),
  });
  if (unit) b.put(`D${row}`, { role: 'unit', value: unit });
  b.name(name, `B${row}`, label);
  b.validate({
    range: `B${row}`,
    rule,
    prompt: { title: label, message: why },
    refusal: { title: label, message: refusalOf(field), style: 'stop' },
  });
}
