import { IMAGE_METRES } from '../../src/photometry/bounds';
import { type LengthUnit, METRES } from '../../src/photometry/units';
import { type NumberField, SETUP_FIELDS, type SetupField } from '../../src/sheets/setup/fields';
import type { SetupPath } from '../../src/sheets/setup/path';
import type { Choices, Common } from '../form/field';
import type { Expectation } from '../parse/quantity';
import type { FieldId, OfSetup, SetupSpec, SetupTexts } from './field';

const YES_NO: Choices = [
  ['no', 'No'],
  ['yes', 'Yes'],
];

/** A field of the table as the form asks for it: label, bounds and choices are the table's. */
export function ask(
  path: SetupPath,
  more: Omit<Partial<Common<FieldId>> & OfSetup, 'path' | 'label'> & { readonly choices?: Choices } = {},
): SetupSpec {
  const field: SetupField = SETUP_FIELDS[path];
  const { choices, ...rest } = more;
  const common = { ...rest, path, label: labelOf(field) };
  if (choices) return { ...common, kind: 'choice', choices };
  switch (field.kind) {
    case 'text':
    case 'date':
      return { ...common, kind: field.kind };
    case 'truth':
      return { ...common, kind: 'choice', choices: YES_NO };
    case 'choice':
      return { ...common, kind: 'choice', choices: field.choices.map((each) => [each, each]) };
    case 'number':
      return { ...common, kind: 'number', expect: (texts) => expected(field, texts) };
  }
}

/** With the unit behind it, where the label does not say it. */
export function labelOf(field: SetupField): string {
  const unit = field.kind === 'number' && field.unit !== 'length' ? field.unit : '';
  if (unit === '' || field.label.includes(unit)) return field.label;
  return `${field.label}${field.label.endsWith('±') ? '' : ','} ${unit}`;
}

/** Per cent, as people type what the set-up has as a part of 1; 0.9999 × 100 alone is not quite 99.99. */
export const perCent = (part: number) => Number((100 * part).toPrecision(6));

/** What a number field takes, in the unit that people type. */
export function expected(
  { label, unit, bounds }: NumberField,
  { lengthUnit }: Pick<SetupTexts, 'lengthUnit'>,
): Expectation {
  const what = label[0]!.toLowerCase() + label.slice(1).replace(/ ±$/, '');
  if (unit === 'length') return { what, ...imageBounds(lengthUnit as LengthUnit) };
  const typed = unit === '%' ? perCent : (value: number) => value;
  return { what, unit: unit === 'digits' ? '' : unit, min: typed(bounds.min), max: typed(bounds.max) };
}

export function imageBounds(unit: LengthUnit) {
  const inUnit = (metres: number) => Number((metres / METRES[unit]).toPrecision(4));
  return { unit, min: inUnit(IMAGE_METRES.min), max: inUnit(IMAGE_METRES.max) };
}
