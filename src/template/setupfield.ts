import * as v from 'valibot';
import { SETUP_FIELDS, type SetupField, TEXT_MAX, usual } from '../sheets/setup/fields';
import type { SetupPath, SetupValue } from '../sheets/setup/path';
import { choice, date, number, text, truth } from './fields';

/*
 * The fields of a run's set-up as parts of the schema: kind, bounds and usual value are those of the one table.
 */

type Needed<P extends SetupPath> = v.GenericSchema<SetupValue<P>>;
type Maybe<P extends SetupPath> = v.OptionalSchema<Needed<P>, undefined>;
type Usually<P extends SetupPath> = v.OptionalSchema<Needed<P>, SetupValue<P>>;

/** A field that a file must have. */
export function needed<P extends SetupPath>(path: P): Needed<P> {
  return schemaOf(SETUP_FIELDS[path]) as unknown as Needed<P>;
}

/** A field that may be left out, and then stays unknown. */
export function maybe<P extends SetupPath>(path: P): Maybe<P> {
  return v.optional(schemaOf(SETUP_FIELDS[path])) as unknown as Maybe<P>;
}

/** A field that may be left out, and then is as usual. */
export function usually<P extends SetupPath>(path: P): Usually<P> {
  return v.optional(schemaOf(SETUP_FIELDS[path]), usual(path) as never) as unknown as Usually<P>;
}

function schemaOf(field: SetupField): v.GenericSchema {
  switch (field.kind) {
    case 'text':
      return text(TEXT_MAX);
    case 'date':
      return date();
    case 'choice':
      return choice(field.choices);
    case 'truth':
      return truth();
    case 'number':
      return number({ ...field.bounds, ...(field.isWhole ? { whole: true } : {}) });
  }
}
