import { SETUP_FIELDS, type SetupField, usual } from '../../src/sheets/setup/fields';
import type { SetupPath } from '../../src/sheets/setup/path';
import type { Read } from '../form/field';
import { retyped } from '../parse/quantity';
import { perCent } from './ask';

/** A value of the set-up as somebody would type or choose it. */
export function typedAs(path: SetupPath, value: string | number | boolean | undefined): string {
  if (value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? retyped(isPart(path) ? perCent(value) : value) : value;
}

/** What a field's text is in the set-up; undefined where nothing was typed. */
export function meantBy(
  path: SetupPath,
  text: string,
  { value }: Read,
): string | number | boolean | undefined {
  const field: SetupField = SETUP_FIELDS[path];
  switch (field.kind) {
    case 'truth':
      return text === 'yes';
    case 'number':
      return value === undefined ? undefined : isPart(path) ? value / 100 : value;
    default: {
      // What is unknown stays unknown; an empty text is one where that is usual.
      const typed = text.trim();
      return typed === '' && usual(path) === undefined ? undefined : typed;
    }
  }
}

function isPart(path: SetupPath): boolean {
  const field: SetupField = SETUP_FIELDS[path];
  return field.kind === 'number' && field.unit === '%';
}
