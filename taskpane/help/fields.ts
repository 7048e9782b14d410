import { SETUP_FIELDS } from '../../src/sheets/setup/fields';
import type { SetupPath } from '../../src/sheets/setup/path';
import { FIELD_WHY } from '../../src/sheets/setup/why';

/** What a field of a run's set-up is for, in the words of its cell. */
export interface FieldHelp {
  readonly label: string;
  readonly why: string;
}

/** Fields that several colours or sides share the words of stand once. */
export function fieldHelp(): readonly FieldHelp[] {
  const seen = new Set<string>();
  return Object.entries(SETUP_FIELDS).flatMap(([path, { label }]): FieldHelp[] => {
    const why = FIELD_WHY[path as SetupPath];
    if (why === undefined || seen.has(why)) return [];
    seen.add(why);
    return [{ label, why }];
  });
}
