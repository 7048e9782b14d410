import { good } from '../../../photometry/outcome';
import { FIGURES, serialKey } from '../../../sheets/acceptance/links';
import type { Book } from '../../../sheets/book';
import type { Plan } from '../../../sheets/plan';
import { gridOf, type SheetView, valueAt } from '../../view';
import { cellsNamed } from '../cells';
import type { Recomputed } from '../kind';
import { linkedTo } from '../links';
import { runRecomputed } from '../run';

/** Figures of linked lines from the readings of their runs; empty where the run is another unit's or not complete. */
export function recomputeLinked(
  view: SheetView,
  plan: Plan,
  book: Book | undefined,
): Map<string, Recomputed> {
  const found = new Map<string, Recomputed>();
  const serials = cellsNamed(plan, 'Serials');
  for (const [column, name] of FIGURES) {
    cellsNamed(plan, column).forEach((at, i) => {
      if (plan.cells[at]!.formula === undefined) return;
      const run = linkedTo(view, [at], book);
      if ('why' in run || run.identity?.kind !== 'run') return;
      const serial = gridOf(run, 'SerialNumber')[0]?.[0] ?? null;
      const isOurs = serialKey(serial) === serialKey(valueAt(view, serials[i]!));
      const value = runRecomputed(run).get(name);
      found.set(at, isOurs && value?.ok && typeof value.value === 'number' ? value : good(''));
    });
  }
  return found;
}
