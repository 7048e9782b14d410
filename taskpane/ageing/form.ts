import { LUMENS } from '../../src/photometry/bounds';
import { type AgeingSetup, defaultAgeing, type Measurement } from '../../src/sheets/ageing/setup';
import { LEVEL } from '../../src/sheets/setup/fields';
import { fields, type Reads, type Texts } from '../form/field';
import { numbersIn, readAll, unfitIn } from '../form/read';
import type { Expectation } from '../parse/quantity';
import { perCent } from '../setup/ask';

const light = (what: string): Expectation => ({ what, unit: 'lm', moreThan: 0, max: LUMENS.max });
const usual = defaultAgeing();

/** One unit over the hours of its light source. */
export const UNIT = fields({
  projector: { kind: 'text', label: 'Projector' },
  serial: { kind: 'text', label: 'Serial number' },
  mode: { kind: 'text', label: 'Picture mode', hint: 'One and the same for every measurement.' },
  needed: {
    kind: 'number',
    label: 'Light the room needs, lm',
    hint: 'Without the reserve for ageing. May stay empty.',
    expect: light('light the room needs'),
  },
  stated: {
    kind: 'number',
    label: 'Initial light output if stated, lm',
    hint: 'Empty: the first measurement counts as initial.',
    expect: light('initial light output'),
  },
  hoursPerYear: {
    kind: 'number',
    label: 'Hours of use a year',
    start: String(usual.hoursPerYear),
    expect: { what: 'hours of use a year', unit: '', min: 1, max: 8784 },
    needed: 'Hours of use a year are needed.',
  },
  level: {
    kind: 'number',
    label: 'Level of confidence, %',
    start: String(perCent(usual.level)),
    expect: { what: 'level of confidence', unit: '%', min: perCent(LEVEL.min), max: perCent(LEVEL.max) },
    needed: 'A level of confidence is needed.',
  },
});
export type UnitField = keyof typeof UNIT;
export type UnitTexts = Texts<UnitField>;

export type LineField = 'hours' | 'output' | 'expanded' | 'date' | 'remark';
export type LineTexts = Texts<LineField>;

export function isBlankLine(line: LineTexts): boolean {
  return Object.values(line).every((text) => text.trim() === '');
}

/** A line with nothing in it does not count, so nothing is missing there. */
const missing = (problem: string) => (text: string, line: LineTexts) =>
  text.trim() === '' && !isBlankLine(line) ? { problem } : undefined;

/** One measurement. */
export const LINE = fields<LineField>({
  hours: {
    kind: 'number',
    label: 'Hours of the source',
    expect: { what: 'hours', unit: '', min: 0, max: 1_000_000 },
    check: missing('The hours of the light source are needed.'),
  },
  output: {
    kind: 'number',
    label: 'Light output, lm',
    expect: light('light output'),
    check: missing('The light output is needed.'),
  },
  expanded: {
    kind: 'number',
    label: 'Uncertainty U, lm',
    hint: 'May stay empty.',
    expect: { what: 'U', unit: 'lm', min: 0, max: LUMENS.max },
  },
  date: { kind: 'date', label: 'Measured on' },
  remark: { kind: 'text', label: 'Note' },
});

/** The measurements that are fit, and the set-up; that stays away while a field wants another look. */
export function understand(
  texts: UnitTexts,
  lines: readonly LineTexts[],
): { readonly points: readonly Measurement[]; readonly setup?: AgeingSetup } {
  const unit = readAll(UNIT, texts);
  const measured = lines.map((line) => ({ line, reads: readAll(LINE, line) }));
  const points = measured.flatMap(({ line, reads }) => pointOf(line, reads));
  const unfit = [...unfitIn(unit), ...measured.flatMap(({ reads }) => unfitIn(reads))];
  if (unfit.length > 0) return { points };
  return {
    points,
    setup: {
      projector: texts.projector.trim(),
      serial: texts.serial.trim(),
      mode: texts.mode.trim(),
      ...numbersIn(unit, ['needed', 'stated']),
      hoursPerYear: unit.hoursPerYear.value!,
      level: unit.level.value! / 100,
      points,
    },
  };
}

function pointOf({ date, remark }: LineTexts, reads: Reads<LineField>): Measurement[] {
  const [hours, output] = [reads.hours.value, reads.output.value];
  if (hours === undefined || output === undefined || unfitIn(reads).length > 0) return [];
  return [
    {
      hours,
      output,
      ...numbersIn(reads, ['expanded']),
      ...(date === '' ? {} : { date }),
      ...(remark.trim() === '' ? {} : { remark: remark.trim() }),
    },
  ];
}
