import { rectOf } from '../../sheets/address';
import type { Plan, PlanCell } from '../../sheets/plan';
import { labelsOf } from '../trace/labels';
import type { SheetView } from '../view';
import { cellsNamed } from './cells';
import type { ResultCell } from './kind';

/**
 * Results of a sheet by the roles of its plan: every result, with the plain formula that follows it in its row, and
 * plain formulas that stand alone; then the cells of further names.
 */
export function resultCells(view: SheetView, plan: Plan, names: readonly string[] = []): ResultCell[] {
  const labels = labelsOf(view, plan);
  const naming = namesOf(plan);
  const cell = (at: string, twinAt?: string): ResultCell => ({
    name: naming(at) ?? (twinAt === undefined ? undefined : naming(twinAt)) ?? at,
    label: labels.of(twinAt ?? at),
    unit: labels.unit(twinAt ?? at),
    at,
    ...(twinAt === undefined ? {} : { twinAt }),
  });
  const found: ResultCell[] = [];
  for (const row of rowsOf(plan)) {
    for (let i = 0; i < row.length; i++) {
      const { at, role } = row[i]!;
      const next = row[i + 1];
      if (role === 'result' && next?.role === 'twin') {
        found.push(cell(at, next.at));
        i++;
      } else found.push(cell(at));
    }
  }
  const known = new Set(found.flatMap(({ at, twinAt }) => [at, twinAt]));
  const others = names.flatMap((name) => cellsNamed(plan, name)).filter((at) => !known.has(at));
  return [...found, ...others.filter((at) => plan.cells[at]!.formula !== undefined).map((at) => cell(at))];
}

interface Placed {
  readonly at: string;
  readonly role: PlanCell['role'];
  readonly row: number;
  readonly column: number;
}

/** Result and plain cells with formulas, row by row from left to right. */
function rowsOf({ cells }: Plan): Placed[][] {
  const rows = new Map<number, Placed[]>();
  for (const [at, { role, formula }] of Object.entries(cells)) {
    if (formula === undefined || (role !== 'result' && role !== 'twin')) continue;
    const { row, column } = rectOf(at);
    rows.set(row, [...(rows.get(row) ?? []), { at, role, row, column }]);
  }
  return [...rows].sort(([a], [b]) => a - b).map(([, row]) => row.sort((a, b) => a.column - b.column));
}

/** `LotVerdict` for the cell behind a name, `OfferCost[2]` for the second cell of a named range. */
function namesOf(plan: Plan): (at: string) => string | undefined {
  const found = new Map<string, string>();
  for (const { name } of plan.names) {
    const cells = cellsNamed(plan, name);
    cells.forEach((at, i) => {
      if (!found.has(at)) found.set(at, cells.length === 1 ? name : `${name}[${i + 1}]`);
    });
  }
  return (at) => found.get(at);
}
