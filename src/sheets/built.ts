import { cellsOf } from './address';
import type { ComparedRun } from './comparison';
import { addressesOf } from './filled';
import type { LinkedSheet } from './link';
import type { ListedSheet } from './overview';
import type { Plan } from './plan';
import { BUDGET_RESULT, type BudgetId } from './run/budgetid';

/** A sheet that was just built from a plan, as sheets built after it refer to it. */
export interface BuiltSheet {
  /** What it is called in the workbook. */
  readonly sheet: string;
  readonly plan: Plan;
}

export function linkedSheet({ sheet, plan }: BuiltSheet): LinkedSheet {
  return { sheet, addresses: addressesOf(plan) };
}

/** As an overview lists it: new, so not sealed. */
export function listedSheet({ sheet, plan }: BuiltSheet): ListedSheet {
  const cells = Object.entries(addressesOf(plan)).map(([name, address]) => [name, { address }] as const);
  return { sheet, kind: plan.kind, id: plan.id, isSealed: false, cells: Object.fromEntries(cells) };
}

/** A run as a comparison takes it; runs with equal numbers share a meter, or an image. */
export function comparedSheet(built: BuiltSheet, meter: number, image: number): ComparedRun {
  const { sheet, addresses } = linkedSheet(built);
  const labels = (id: BudgetId) =>
    cellsOf(addresses[`${id}Components`]!).map((at) => String(built.plan.cells[at]!.value));
  return {
    sheet,
    addresses,
    components: Object.fromEntries(
      (Object.keys(BUDGET_RESULT) as BudgetId[])
        .filter((id) => addresses[`${id}Components`])
        .map((id) => [id, labels(id)]),
    ),
    meter,
    image,
  };
}
