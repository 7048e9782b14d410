import type { RunSetup } from '../../src/sheets/runsetup';
import { valueAt } from '../../src/sheets/setup/path';
import { retyped } from '../parse/quantity';
import type { FieldId } from './field';
import { FIELD_IDS, FIELDS } from './fields';
import { typedAs } from './value';

/** What belongs to one unit on one day, and not to the next one. */
const OWN: ReadonlySet<FieldId> = new Set<FieldId>(['serial', 'date']);

/** A set-up as the form's texts: what somebody would have typed for it, but for serial number and day. */
export function textsOfSetup(setup: RunSetup): Partial<Record<FieldId, string>> {
  const fields = FIELD_IDS.flatMap((id): [FieldId, string][] => {
    const { path, unitIn } = FIELDS[id];
    if (path === undefined || unitIn || OWN.has(id)) return [];
    return [[id, typedAs(path, valueAt(setup, path))]];
  });
  return { ...Object.fromEntries(fields), ...imageTexts(setup) };
}

function imageTexts({ image }: RunSetup): Partial<Record<FieldId, string>> {
  if (image.shape === 'four sides') {
    const { unit, top, right, bottom, left, falling, rising } = image;
    const sides = Object.entries({ top, right, bottom, left, falling, rising });
    return {
      known: 'four sides',
      lengthUnit: unit,
      ...Object.fromEntries(sides.map(([side, length]) => [side, retyped(length)])),
    };
  }
  const { unit, known, length, across, down } = image;
  return { known, lengthUnit: unit, length: retyped(length), aspect: `${across}:${down}` };
}
