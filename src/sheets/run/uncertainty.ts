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
} from '../../metrology/run/defaults';
import type { PlanBuilder } from '../builder';
import { METER_CLASSES, type RunSetup } from '../runsetup';
import { FORMAT } from './layout';

export const PRIMARY_STEMS = ['Red', 'Green', 'Blue'] as const;
export type BudgetStem = 'White' | (typeof PRIMARY_STEMS)[number];
/** For each field, the cells of each of its nine points: first reading and repeats. */
export type FieldCells = Partial<Record<BudgetStem, readonly (readonly string[])[]>>;

/** Range factors that get a digits component of their own; any other factors share one. */
export const DECADES = [0.1, 1, 10, 100, 1000] as const;

/** A half-width that may be left out: what is typed, what is used instead, and the words that say so. */
export interface Known {
  readonly label: string;
  /** `${name}` is the input, `${name}Used` what counts. */
  readonly name: string;
  readonly value: number | undefined;
  readonly unit: string;
  readonly format: string;
  readonly max: number;
  /** Formula without "=" of the cautious value. */
  readonly assumed: string;
  readonly because: string;
  readonly why: string;
}

const percent = (fraction: number) => `${Number((100 * fraction).toPrecision(6))} %`;

/** Everything about a run that may be known or assumed. */
export function knowns(setup: Pick<RunSetup, 'uncertainty' | 'colour' | 'ambient'>): Known[] {
  const { uncertainty: u, colour, ambient } = setup;
  const spectral = (stem: BudgetStem): Known => {
    const field = stem.toLowerCase() as Lowercase<BudgetStem>;
    return {
      label: `Spectral mismatch, ${field} ±`,
      name: `${stem}Mismatch`,
      value: u.spectral?.[field],
      unit: 'of reading',
      format: FORMAT.percent,
      max: 1,
      assumed: String(SPECTRAL[field]),
      because: `assumed: ± ${percent(SPECTRAL[field])}, a good meter on narrow primaries`,
      why: 'By which part of the reading the spectral correction of this colour may be off.',
    };
  };
  const length = (side: 'Width' | 'Height', value: number | undefined): Known => ({
    label: `Image ${side.toLowerCase()} ±`,
    name: `${side}Half`,
    value,
    unit: 'mm',
    format: '0.0',
    max: 1000,
    assumed: `MAX(${LENGTH_LEAST * 1000},${LENGTH_FRACTION * 1000}*Image${side})`,
    because: `assumed: ${percent(LENGTH_FRACTION)} of it, at least ${LENGTH_LEAST * 1000} mm`,
    why: 'Tape and blurred edge, both ends together, in millimetres.',
  });
  const lux = 'MeterDigitsUsed*MeterDigit*LuxPerUnit';
  return [
    {
      label: 'Meter, ± of reading',
      name: 'MeterOfReading',
      value: u.ofReading,
      unit: 'of reading',
      format: FORMAT.percent,
      max: 1,
      assumed: `IF(MeterClass="L",${CLASS_TOTAL.L},IF(MeterClass="A",${CLASS_TOTAL.A},IF(MeterClass="B",${CLASS_TOTAL.B},${CLASS_TOTAL.C})))`,
      because: 'assumed: total error of the class above, the widest if unknown (DIN 5032-7:1985)',
      why: 'What the meter’s data sheet or certificate states, e.g. 3 %.',
    },
    {
      label: 'Meter, ± digits',
      name: 'MeterDigits',
      value: u.digits,
      unit: 'digits',
      format: FORMAT.general,
      max: 1000,
      assumed: String(DIGITS),
      because: `assumed: ± ${DIGITS} digits, as hand-held meters often state`,
      why: 'How many steps of the last digit the data sheet adds to the percentage.',
    },
    spectral('White'),
    ...(colour === 'none' ? [] : PRIMARY_STEMS.map(spectral)),
    length('Width', u.width),
    length('Height', u.height),
    {
      label: 'Image not square, area ±',
      name: 'SquareHalf',
      value: u.square,
      unit: 'of area',
      format: FORMAT.percent,
      max: 1,
      assumed: String(SQUARE),
      because: `assumed: ± ${percent(SQUARE)}, the limit for squaring the image`,
      why: 'By which part the area may be off because the image is not a rectangle.',
    },
    {
      label: 'Ambient illuminance ±',
      name: 'AmbientHalf',
      value: u.ambient,
      unit: 'lx',
      format: FORMAT.lux,
      max: 100_000,
      assumed:
        ambient === 'none'
          ? `IF(COUNT(WhiteNet)<9,"",${AMBIENT_UNMEASURED}*AVERAGE(WhiteNet))`
          : `IF(COUNT(AmbientMean)=0,"",${AMBIENT_FRACTION}*AmbientMean+${lux})`,
      because:
        ambient === 'none'
          ? `assumed: ${percent(AMBIENT_UNMEASURED)} of white, because it was not measured`
          : 'assumed: a tenth of it and the meter’s digits',
      why: 'Apart from the meter’s own percentage.',
    },
    {
      label: 'Another cause, output ±',
      name: 'OtherHalf',
      value: u.other,
      unit: 'of output',
      format: FORMAT.percent,
      max: 1,
      assumed: '0',
      because: 'none stated',
      why: 'One cause of your own that bears on every light output alike; say in the notes what it is.',
    },
  ];
}

/** Writes what the uncertainty rests on, from `row` on; returns the first row below it. */
export function putUncertainty(b: PlanBuilder, row: number, setup: RunSetup, cells: FieldCells): number {
  b.put(`A${row}`, { role: 'heading', value: 'What is uncertain' });
  b.wide(`B${row}:C${row}`, { role: 'heading', value: 'as known' });
  b.put(`D${row}`, { role: 'heading', value: 'unit' });
  b.wide(`E${row}:F${row}`, { role: 'heading', value: 'as used' });
  b.wide(`G${row}:L${row}`, { role: 'heading', value: 'leave empty what you do not know' });
  let r = row + 1;
  putChoice(
    b,
    r++,
    'Meter class',
    'MeterClass',
    setup.uncertainty.meterClass,
    METER_CLASSES,
    'Class of DIN 5032-7:1985, if the meter has one: L, A, B or C. Used where its percentage is not known.',
  );
  const first = r;
  for (const known of knowns(setup)) putKnown(b, r++, known);
  const fields = Object.entries(cells) as [BudgetStem, readonly (readonly string[])[]][];
  for (const [stem, points] of fields) putScatter(b, r++, stem, points, setup.repeats);
  putDerived(
    b,
    r++,
    'Drift over the run ±',
    'DriftHalf',
    `=IF(ISNUMBER(DriftPlain),ABS(DriftPlain),${DRIFT})`,
    FORMAT.percent,
    'of output',
    `=IF(ISNUMBER(DriftPlain),"the whole change of the centre reading","assumed: ± ${percent(DRIFT)}, the centre was not read again")`,
  );
  b.name('CauseLabels', `A${first}:A${r - 1}`, 'What is uncertain, cause by cause');
  b.name(
    'CauseStatus',
    `G${first}:G${r - 1}`,
    'Whether each cause was entered, found from readings or assumed',
  );
  putLevel(b, r++, setup.uncertainty.level);
  putChoice(
    b,
    r++,
    'Decision rule',
    'DecisionRule',
    setup.uncertainty.rule,
    DECISION_RULES,
    'Fix it before the readings (ISO/IEC 17025, 7.1.3). Guard band: how far above the limit a result must lie to pass.',
  );
  return putDigits(b, r, setup);
}

function putKnown(
  b: PlanBuilder,
  row: number,
  { label, name, value, unit, format, max, assumed, because, why }: Known,
): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:C${row}`, { role: 'input', format, ...(value === undefined ? {} : { value }) });
  b.put(`D${row}`, { role: 'unit', value: unit });
  b.wide(`E${row}:F${row}`, {
    role: 'derived',
    formula: `=IF(ISNUMBER(B${row}),B${row},${assumed})`,
    format,
  });
  b.wide(`G${row}:L${row}`, { role: 'check', formula: `=IF(ISNUMBER(B${row}),"as entered","${because}")` });
  b.name(name, `B${row}`, label).name(`${name}Used`, `E${row}`, `${label} as used`);
  const title = label.slice(0, 32);
  b.validate({
    range: `B${row}`,
    rule: { type: 'number', min: 0, max },
    prompt: { title, message: `${why} Half-width, in the unit to the right. Leave empty if unknown.` },
    refusal: {
      title,
      message: `A number from 0 to ${max}${max === 1 ? ', such as 3 %' : ''}, or nothing.`,
      style: 'stop',
    },
  });
}

function putDerived(
  b: PlanBuilder,
  row: number,
  label: string,
  name: string,
  formula: string,
  format: string,
  unit: string,
  words: string,
): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.put(`D${row}`, { role: 'unit', value: unit });
  b.wide(`E${row}:F${row}`, { role: 'derived', formula, format });
  b.wide(`G${row}:L${row}`, {
    role: 'check',
    ...(words.startsWith('=') ? { formula: words } : { value: words }),
  });
  b.name(name, `E${row}`, label);
}

/** Pooled standard deviation of one reading in lux (GUM 4.2), or the cautious value where no point was read twice. */
function putScatter(
  b: PlanBuilder,
  row: number,
  stem: BudgetStem,
  points: readonly (readonly string[])[],
  repeats: number,
): void {
  const field = stem.toLowerCase();
  const squares = points.map(
    (cells, i) => `DEVSQ(${cells.join(',')})*INDEX(${stem}Range,${Math.floor(i / 3) + 1},${(i % 3) + 1})^2`,
  );
  const pooled = `SQRT((${squares.join('+')})/${9 * (repeats - 1)})*LuxPerUnit*${stem}Correction`;
  const cautious = `${REPEATABILITY}*SQRT(SUMPRODUCT((${stem}Net+AmbientLux)^2)/9)`;
  putDerived(
    b,
    row,
    `Scatter of one reading, ${field}`,
    `${stem}Scatter`,
    `=IF(COUNT(${stem}Net)<9,"",${repeats > 1 ? pooled : cautious})`,
    FORMAT.lux,
    'lx',
    repeats > 1
      ? `pooled standard deviation of ${repeats} readings a point, ν = ${9 * (repeats - 1)}`
      : `assumed: ${percent(REPEATABILITY)} of each reading, ν = 8: no point was read twice`,
  );
}

function putLevel(b: PlanBuilder, row: number, level: number): void {
  b.put(`A${row}`, { role: 'label', value: 'Level of confidence' });
  b.wide(`B${row}:C${row}`, { role: 'input', value: level, format: '0.00 %' });
  b.name('Level', `B${row}`, 'Level of confidence');
  b.validate({
    range: `B${row}`,
    rule: { type: 'number', min: 0.5, max: 0.9999 },
    prompt: {
      title: 'Level of confidence',
      message: '95.45 % is about two standard deviations, k = 2. From 50 % to 99.99 %.',
    },
    refusal: { title: 'Level of confidence', message: 'A level from 50 % to 99.99 %.', style: 'stop' },
  });
}

function putChoice(
  b: PlanBuilder,
  row: number,
  label: string,
  name: string,
  value: string,
  choices: readonly string[],
  why: string,
): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:C${row}`, { role: 'choice', value });
  b.name(name, `B${row}`, label);
  b.validate({
    range: `B${row}`,
    rule: { type: 'list', choices },
    prompt: { title: label, message: why },
    refusal: { title: label, message: `Choose one of ${choices.join('; ')}.`, style: 'stop' },
  });
}

/**
 * How much an offset common to all readings of one range weighs in the mean of nine, range by range: readings in
 * one range share it, readings in different ranges do not.
 */
function putDigits(b: PlanBuilder, row: number, { colour }: RunSetup): number {
  b.put(`A${row}`, { role: 'label', value: 'Weight of the digits' });
  b.wide(`B${row}:C${row}`, { role: 'label', value: 'in white' });
  b.wide(`E${row}:F${row}`, { role: 'label', value: colour === 'none' ? '' : 'in colour' });
  b.wide(`G${row}:L${row}`, {
    role: 'check',
    value: 'offset of one range × part of the nine readings taken in it × correction',
  });
  [...DECADES, 'other' as const].forEach((range, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, {
      role: 'label',
      value: range === 'other' ? '    in any other range' : `    in range × ${range}`,
    });
    b.put(`B${r}`, { role: 'derived', formula: `=${weight('White', range)}`, format: FORMAT.general });
    const inColour = colour === 'none' ? '0' : PRIMARY_STEMS.map((stem) => weight(stem, range)).join('+');
    b.put(`E${r}`, { role: 'derived', formula: `=${inColour}`, format: FORMAT.general });
  });
  b.name('DigitsWhite', `B${row + 1}:B${row + 6}`, 'Weight of the meter’s digits in white, range by range');
  b.name('DigitsColour', `E${row + 1}:E${row + 6}`, 'Weight of the meter’s digits in colour, range by range');
  return row + 7;
}

function weight(stem: BudgetStem, range: number | 'other'): string {
  const inRange = (r: number) => `${r}*COUNTIF(${stem}Range,${r})`;
  const sum = range === 'other' ? `(SUM(${stem}Range)-${DECADES.map(inRange).join('-')})` : inRange(range);
  return `${sum}/9*${stem}Correction`;
}
