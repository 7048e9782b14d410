import { addressOf, cellsOf, columnName, rectOf } from '../../sheets/address';
import { namesIn } from '../../sheets/inner';
import type { CellName } from '../../sheets/names/all';
import type { Plan } from '../../sheets/plan';
import { type SheetView, valueAt } from '../view';

/** The value that most of a list have; of several as frequent the first. */
export function majority<T>(values: readonly T[]): T | undefined {
  const counts = new Map<string, { value: T; count: number }>();
  for (const value of values) {
    const key = JSON.stringify(value);
    const known = counts.get(key);
    if (known) known.count++;
    else counts.set(key, { value, count: 1 });
  }
  const most = Math.max(0, ...[...counts.values()].map(({ count }) => count));
  return [...counts.values()].find(({ count }) => count === most)?.value;
}

/** More lines than any table of ours has; a stranger's name may cover a whole column. */
const LINES_MAX = 2_000;

/**
 * How many lines a table has, told by the ranges of its columns: lines that a person put in between count, and one
 * lost or moved name changes nothing.
 */
export function linesOf({ places }: SheetView, names: readonly CellName[], max = LINES_MAX): number {
  const found = names.flatMap((name) => {
    const address = places.get(name.toLowerCase())?.address;
    return address === undefined ? [] : [rectOf(address).rows];
  });
  return Math.min(max, majority(found) ?? 0);
}

/** Cells of what a plan calls by a name, row by row; none if it has no such name. */
export function cellsNamed(plan: Plan, name: CellName): string[] {
  const range = namesIn(plan).find((each) => each.name === name)?.range;
  return range === undefined ? [] : cellsOf(range);
}

/** First cell of a named range of a plan. */
export function cellNamed(plan: Plan, name: CellName): string {
  return cellsNamed(plan, name)[0] ?? '';
}

export function numberAt(view: SheetView, at: string): number | undefined {
  const value = valueAt(view, at);
  return typeof value === 'number' ? value : undefined;
}

/** What was typed as a text; numbers read as they are written. */
export function textAt(view: SheetView, at: string): string {
  const value = valueAt(view, at);
  return typeof value === 'string' ? value : typeof value === 'number' ? String(value) : '';
}

/** A line of a table of `putRows`: the cell of each column by its key. */
export type LineAt<Key extends string = string> = (key: Key) => string;

/** Lines of a table whose first column bears `name`; columns are in the order of their keys. */
export function tableLines(
  plan: Plan,
  name: CellName,
  columns: readonly { readonly key: string }[],
): LineAt[] {
  const letters = new Map(columns.map(({ key }, i) => [key, columnName(i)]));
  return cellsNamed(plan, name).map((at) => {
    const { row } = rectOf(at);
    return (key) => `${letters.get(key)}${row + 1}`;
  });
}

/** The line and the column of such a table that a cell is in; undefined for cells outside. */
export function placeInTable<C extends { readonly key: string }>(
  plan: Plan,
  name: CellName,
  columns: readonly C[],
  at: string,
): { readonly line: LineAt; readonly column: C } | undefined {
  const { row, column } = rectOf(at);
  const first = cellNamed(plan, name);
  const own = columns[column];
  const line = first === '' ? undefined : tableLines(plan, name, columns)[row - rectOf(first).row];
  return line && own && { line, column: own };
}

/** The area of such a table, if the plan has it. */
export function tableArea({ names }: Plan, name: CellName, columns: number): string[] {
  const first = names.find((each) => each.name === name)?.range;
  return first === undefined ? [] : [addressOf({ ...rectOf(first), columns })];
}

/** A plan with other values in some cells. */
export function withValues(plan: Plan, values: Readonly<Record<string, string | number | undefined>>): Plan {
  const cells = { ...plan.cells };
  for (const [at, value] of Object.entries(values)) {
    const { value: _, ...rest } = cells[at]!;
    cells[at] = value === undefined ? rest : { ...rest, value };
  }
  return { ...plan, cells };
}

const KEPT = 64;

/** Plans by what their layout depends on: 200 sheets of one kind are planned once. */
export function keptPlans(): (key: string, make: () => Plan) => Plan {
  const plans = new Map<string, Plan>();
  return (key, make) => {
    const known = plans.get(key);
    if (known) return known;
    const plan = make();
    if (plans.size >= KEPT) plans.clear();
    plans.set(key, plan);
    return plan;
  };
}

/** Remembers what was made of a sheet: several questions are asked of one, and a comparison asks of many. */
export function remembered<T>(compute: (view: SheetView) => T): (view: SheetView) => T {
  const known = new WeakMap<SheetView, { value: T }>();
  return (view) => {
    const found = known.get(view) ?? { value: compute(view) };
    known.set(view, found);
    return found.value;
  };
}
