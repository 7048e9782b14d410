import { ILLUMINANCE_UNITS } from '../../photometry/units';
import type { ValidationRule } from '../book';
import type { PlanBuilder } from '../builder';
import { dayNumber } from '../days';
import { FORMAT } from '../run/layout';
import { SPOT_REFERENCES, type SpotSetup } from './setup';

/** One line of the set-up. */
interface Line {
  readonly label: string;
  readonly name: string;
  readonly value: string | number | undefined;
  readonly rule: ValidationRule;
  readonly why: string;
  readonly format?: string;
}

const text = { rule: { type: 'length', max: 120 }, format: FORMAT.text } as const;
const factor = (max: number) => ({ rule: { type: 'number', min: 0.000001, max } }) as const;

/** Who, where, with which meter; two lines side by side. Returns the first row below. */
export function putLines(b: PlanBuilder, row: number, setup: SpotSetup): number {
  b.wide(`A${row}:Q${row}`, { role: 'heading', value: 'Set-up (tinted cells are yours to fill in)' });
  const lines = linesOf(setup);
  lines.forEach((line, i) => {
    const r = row + 1 + (i >> 1);
    if (i % 2 === 0) putLine(b, line, `A${r}`, `B${r}:F${r}`);
    else putLine(b, line, `G${r}:J${r}`, `K${r}:M${r}`);
  });
  return row + 1 + Math.ceil(lines.length / 2);
}

function putLine(b: PlanBuilder, line: Line, labelAt: string, cells: string): void {
  const { label, name, value, rule, why, format } = line;
  const at = cells.split(':')[0]!;
  b.wide(labelAt, { role: 'label', value: label });
  b.wide(cells, {
    role: rule.type === 'list' ? 'choice' : 'input',
    ...(value === undefined || value === '' ? {} : { value }),
    ...(format ? { format } : {}),
  });
  b.name(name, at, label);
  b.validate({
    range: at,
    rule,
    prompt: { title: label, message: why },
    refusal: { title: label, message: refusalOf(line), style: 'stop' },
  });
}

function refusalOf({ label, rule }: Line): string {
  if (rule.type === 'list') return `${label}: choose one of ${rule.choices.join(', ')}.`;
  if (rule.type === 'number') return `${label}: a number above 0, at most ${rule.max}.`;
  return rule.type === 'date' ? `${label}: a date from ${rule.min} on.` : `${label}: at most 120 characters.`;
}

function linesOf({ place, measuredBy, date, meter, reference }: SpotSetup): Line[] {
  const spectral = (colour: keyof typeof meter.corrections): Line => ({
    label: `Spectral correction, ${colour}`,
    name: `${colour[0]!.toUpperCase()}${colour.slice(1)}Spectral`,
    value: meter.corrections[colour],
    why: 'Factor for this colour from the meter’s certificate; 1 if unknown.',
    ...factor(10),
  });
  return [
    {
      label: 'Place',
      name: 'Place',
      value: place,
      why: 'Where: one screen, one distance, one zoom for all units.',
      ...text,
    },
    { label: 'Measured by', name: 'MeasuredBy', value: measuredBy, why: 'Who held the meter.', ...text },
    {
      label: 'Meter',
      name: 'Meter',
      value: meter.name,
      why: 'Which illuminance meter, with its number.',
      ...text,
    },
    {
      label: 'Date',
      name: 'MeasuredOn',
      value: date ? dayNumber(date) : undefined,
      rule: { type: 'date', min: '2000-01-01' },
      why: 'The day of the readings.',
      format: FORMAT.date,
    },
    {
      label: 'Unit on the display',
      name: 'MeterUnit',
      value: meter.unit,
      rule: { type: 'list', choices: ILLUMINANCE_UNITS },
      why: 'lx (lux) or fc (footcandle): what the display shows.',
    },
    {
      label: 'Display step at × 1',
      name: 'MeterDigit',
      value: meter.digit,
      why: 'The step of the display’s last digit in the lowest range.',
      ...factor(1000),
    },
    {
      label: 'Calibration factor',
      name: 'CalibrationFactor',
      value: meter.calibration,
      why: 'Factor from the certificate by which every reading is multiplied; 1 if none is stated.',
      ...factor(10),
    },
    spectral('white'),
    spectral('red'),
    spectral('green'),
    spectral('blue'),
    {
      label: 'Relative to',
      name: 'SpotReference',
      value: reference,
      rule: { type: 'list', choices: SPOT_REFERENCES },
      why: 'first: the unit in the first line; best: the brightest unit, in white and in colour each.',
    },
  ];
}
