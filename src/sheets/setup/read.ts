import type { RawCell } from '../../photometry/reading';
import { isoDay } from '../days';
import type { CellName } from '../names/all';
import { defaultRunSetup, type ImageSetup, type RunSetup } from '../runsetup';
import { SETUP_FIELDS, SETUP_PATHS, type SetupField } from './fields';
import { type PathAndValue, valueAt, withValues } from './path';

/** An image of four sides before any of them is known. */
export const SIDES = {
  shape: 'four sides',
  unit: 'm',
  top: 1,
  right: 1,
  bottom: 1,
  left: 1,
  falling: 1,
  rising: 1,
} as const satisfies ImageSetup;

/**
 * A set-up as it was typed into the cells of a sheet, with the usual values where one is empty or no fit. What the
 * layout alone tells (fields of colour, ambient, black …) is as usual too: the reader of a kind knows better.
 * @param one the value of a name; null or undefined where there is none
 * @param isFourSided whether the sheet has the cells of four sides and two diagonals
 */
export function typedSetup(one: (name: CellName) => RawCell, isFourSided: boolean): RunSetup {
  const usual = defaultRunSetup();
  const base: RunSetup = isFourSided ? { ...usual, image: SIDES } : usual;
  const typed = SETUP_PATHS.flatMap((path): PathAndValue[] => {
    const field: SetupField = SETUP_FIELDS[path];
    const isOfOther = path.startsWith('image.') && valueAt(base, path) === undefined;
    return field.name === undefined || isOfOther ? [] : [[path, typedValue(field, one(field.name))]];
  });
  return withValues(base, typed);
}

/** What a field's cell holds; undefined where that is none of its values. Numbers beyond its bounds are told as they are. */
function typedValue(field: SetupField, cell: RawCell): string | number | undefined {
  switch (field.kind) {
    case 'text':
      return typeof cell === 'string' || typeof cell === 'number' ? String(cell).trim() : undefined;
    case 'date':
      return isoDay(cell as string) || undefined;
    case 'choice':
      return field.choices.find((each) => each === cell);
    case 'number':
      return typeof cell === 'number' && (field.bounds.min <= 0 || cell > 0) ? cell : undefined;
    case 'truth':
      return undefined;
  }
}
