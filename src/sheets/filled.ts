import { cellsOf } from './address';
import { namesIn } from './inner';
import type { Plan, PlanCell } from './plan';

/** What is typed behind names of a plan, row by row; undefined leaves a cell empty. */
export type Typed = Readonly<Record<string, readonly (readonly (number | string | undefined)[])[]>>;

/** A plan with values in its input cells, as if somebody had typed them after building it. */
export function filled(plan: Plan, typed: Typed): Plan {
  const cells: Record<string, PlanCell> = { ...plan.cells };
  for (const [name, rows] of Object.entries(typed)) {
    const range = plan.names.find((one) => one.name === name)?.range;
    if (range === undefined) throw new Error(`The plan has no cells called ${name}`);
    const places = cellsOf(range);
    const values = rows.flat();
    if (values.length !== places.length)
      throw new Error(`${name} has ${places.length} cells; ${values.length} values came`);
    places.forEach((at, i) => {
      const value = values[i];
      if (value === undefined) return;
      const cell = cells[at]!;
      if (cell.formula !== undefined) throw new Error(`${name} is computed, not typed`);
      cells[at] = { ...cell, value };
    });
  }
  return { ...plan, cells };
}

/** A plan with other formulas in some of its cells. */
export function withFormulas(
  plan: Plan,
  formulas: readonly { readonly at: string; readonly formula: string }[],
): Plan {
  const cells: Record<string, PlanCell> = { ...plan.cells };
  for (const { at, formula } of formulas) {
    const { value, ...cell } = cells[at]!;
    cells[at] = { ...cell, formula };
  }
  return { ...plan, cells };
}

/** Addresses of what a plan calls by a name, whether the sheet does or not. */
export function addressesOf(plan: Plan): Record<string, string> {
  return Object.fromEntries(namesIn(plan).map(({ name, range }) => [name, range]));
}
