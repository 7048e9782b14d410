import { cellsOf } from '../../sheets/address';
import { addressesOf } from '../../sheets/filled';
import type { LinkedSheet } from '../../sheets/link';
import { RUN_VERSION } from '../../sheets/run';
import { BUDGET_IDS, type BudgetId } from '../../sheets/run/budgetid';
import { type SheetView, valueAt } from '../view';
import { remembered } from './cells';
import { RUN } from './run';

/** A run sheet as sheets that are linked to it see it: where its names stand by its layout. */
export interface LinkedRun {
  readonly sheet: string;
  readonly addresses: Readonly<Record<string, string>>;
  /** Labels of each budget's rows. */
  readonly components: Readonly<Partial<Record<BudgetId, readonly string[]>>>;
  readonly view: SheetView;
}

/**
 * Names and budget labels of a run sheet as they were when it was built, so that a name moved since then is a
 * finding of the run and not of every sheet linked to it; of a layout that is not known here, as they are.
 */
export const linkedRun = remembered((view): LinkedRun => {
  const plan = view.identity?.version === RUN_VERSION ? RUN.plan(view, undefined) : undefined;
  const planned = plan && 'cells' in plan ? plan : undefined;
  const addresses = planned ? addressesOf(planned) : namesOf(view);
  const label = (at: string) => String((planned ? planned.cells[at]?.value : valueAt(view, at)) ?? '');
  const components = Object.fromEntries(
    BUDGET_IDS.flatMap((id) => {
      const range = addresses[`${id}Components`];
      return range === undefined ? [] : [[id, cellsOf(range).map(label)]];
    }),
  );
  return { sheet: view.sheet.name, addresses, components, view };
});

/** Any of our sheets as a link to it sees it. */
export function linkedSheet(view: SheetView): LinkedSheet {
  if (view.identity?.kind === 'run') return linkedRun(view);
  return { sheet: view.sheet.name, addresses: namesOf(view) };
}

function namesOf({ places }: SheetView): Record<string, string> {
  return Object.fromEntries([...places.values()].map(({ name, address }) => [name, address]));
}
