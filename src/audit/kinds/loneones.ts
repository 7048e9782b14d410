import { loneOnes } from '../../photometry/overrange';
import { aboutLoneOne } from '../../photometry/plausibility';
import { FIELDS } from '../../sheets/names/shared';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { type SheetView, valueAt } from '../view';
import { cellsNamed } from './cells';

/** Readings of 1 in a table of units where the field's others are much larger: a cell makes 1 of a display's "1.". */
export function checkLoneOnes(view: SheetView, plan: Plan): Finding[] {
  return FIELDS.flatMap((stem) => {
    const cells = cellsNamed(plan, `${stem}Readings`);
    const { at, among } = loneOnes(cells.map((cell) => valueAt(view, cell)));
    return at.map(
      (i): Finding => ({
        sheet: view.sheet.name,
        at: cells[i]!,
        kind: 'reading',
        severity: 'note',
        message: `${stem}: the reading is 1. ${aboutLoneOne(among)}`,
        expected: 'a reading like the others of its field, or over',
        found: '1',
        remedy: 'read-again',
      }),
    );
  });
}
