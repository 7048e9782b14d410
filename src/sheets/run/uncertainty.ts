import { DECISION_RULES } from '../../metrology/rules';
import {
  AMBIENT_FRACTION,
  AMBIENT_UNMEASURED,
  CLASS_TOTAL,
  DIGITS,
  DRIFT,
  GAIN,
  LENGTH_FRACTION,
  LENGTH_LEAST,
  SPECTRAL,
  SQUARE,
} from '../../metrology/run/defaults';
import type { PlanBuilder } from '../builder';
import { METER_CLASSES, type RunSetup } from '../runsetup';
import { putDerived } from './derived';
import { putDigits } from './digits';
import { putExtremes } from './extremes';
import { FORMAT } from './layout';
import { percent } from './percent';
import { putScatter, putTileScatter } from './scatter';
import { type BoardCells, type BudgetStem, type FieldCells, PRIMARY_STEMS } from './stems';

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

/** What of a set-up decides what may be known. */
export type KnowableSetup = Pick<RunSetup, 'uncertainty' | 'colour' | 'ambient' | 'black' | 'checkerboard'>;

/** Everything about a run that may be known or assumed. */
export function knowns(setup: KnowableSetup): Known[] {
  const { uncertainty: u, colour, ambient, black, checkerboard } = setup;
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
      because: `assumed: ± ${percent(SPECTRAL[field])}, ${field === 'black' ? 'as for white' : 'a good meter on narrow primaries'}`,
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
    ...(black || checkerboard ? [spectral('Black')] : []),
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
      label: 'Screen gain ±',
      name: 'GainHalf',
      value: u.gain,
      unit: 'of gain',
      format: FORMAT.percent,
      max: 1,
      assumed: String(GAIN),
      because: `assumed: ± ${percent(GAIN)}, as data sheets give it`,
      why: 'By which part the gain stated in the set-up may be off. Only the luminance rests on it.',
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
  r = putExtremes(b, r, setup);
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
  b.wide(`B${row}:D${row}`, { role: 'choice', value });
  b.name(name, `B${row}`, label);
  b.validate({
    range: `B${row}`,
    rule: { type: 'list', choices },
    prompt: { title: label, message: why },
    refusal: { title: label, message: `Choose one of ${choices.join('; ')}.`, style: 'stop' },
  });
}
