import { GRID_NAMES } from '../../photometry/points';
import { cellName, rectOf } from '../../sheets/address';
import type { CellName } from '../../sheets/names/all';
import { type Plan, type PlanCell, RESULT_ROLES } from '../../sheets/plan';
import { labelsOf, splitUnit } from '../trace/labels';
import { type SheetView, valueAt } from '../view';
import { cellsNamed } from './cells';
import type { ResultCell } from './kind';

/** What a kind of sheet calls a result in its own way. */
export type OwnLabel = (at: string, name: string) => string | undefined;

/**
 * Results of a sheet by the roles of its plan: every result, with the plain formula that follows it in its row, and
 * plain formulas that stand alone; then the cells of further names.
 */
export function resultCells(
  view: SheetView,
  plan: Plan,
  names: readonly CellName[] = [],
  own: OwnLabel = () => undefined,
): ResultCell[] {
  const labels = labelsOf(view, plan);
  const naming = namesOf(plan);
  const labelOf = (at: string, name: string, twinAt: string | undefined) =>
    own(at, name) ??
    lineLabel(view, plan, at, name) ??
    (naming(at) === undefined ? labels.of(twinAt ?? at) : labels.of(at));
  const cell = (at: string, twinAt?: string): ResultCell => ({
    ...named(at, twinAt),
    at,
    ...(twinAt === undefined ? {} : { twinAt }),
  });
  const named = (at: string, twinAt: string | undefined) => {
    const name = naming(at) ?? (twinAt === undefined ? undefined : naming(twinAt)) ?? at;
    const unit = labels.unit(twinAt ?? at) || meaningOf(plan, name).unit;
    return { name, label: labelOf(at, name, twinAt), unit };
  };
  const found: ResultCell[] = [];
  for (const row of rowsOf(plan)) {
    for (let i = 0; i < row.length; i++) {
      const { at, role } = row[i]!;
      const next = row[i + 1];
      if (role === 'called' && next?.role === 'twin') {
        found.push(cell(at, next.at));
        i++;
      } else found.push(cell(at));
    }
  }
  const known = new Set(found.flatMap(({ at, twinAt }) => [at, twinAt]));
  const others = names.flatMap((name) => cellsNamed(plan, name)).filter((at) => !known.has(at));
  return [...found, ...others.filter((at) => plan.cells[at]!.formula !== undefined).map((at) => cell(at))];
}

/** The words behind a name, without its unit: `White light output`. */
export function wordsNamed(plan: Plan, name: CellName): string {
  return meaningOf(plan, name).words;
}

function meaningOf(plan: Plan, name: string): { words: string; unit: string } {
  const area = name.replace(/\[\d+\]$/, '');
  const comment = plan.names.find((each) => each.name === area)?.comment ?? area;
  return splitUnit(comment.replace(/(?:,| by) plain(?: formula)?$/, ''));
}

/** A result in a line of a table: `White to ask for, Hillside`; undefined for a result that stands alone. */
function lineLabel(view: SheetView, plan: Plan, at: string, name: string): string | undefined {
  const [, area, nth] = /^(.*)\[(\d+)\]$/.exec(name) ?? [];
  const named = plan.names.find((each) => each.name === area);
  if (!named) return undefined;
  const { range } = named;
  const [whole, { row, column }] = [rectOf(range), rectOf(at)];
  const words = headAbove(view, plan, cellName(whole.row, column)) ?? wordsNamed(plan, named.name);
  if (whole.rows === 3 && whole.columns === 3) return `${words}, ${GRID_NAMES[Number(nth) - 1]}`;
  if (whole.columns > 1) return `${words}, row ${row - whole.row + 1}, column ${column - whole.column + 1}`;
  const label = column === 0 ? null : valueAt(view, cellName(row, 0));
  if (typeof label === 'number') {
    const of = plan.names.find(
      (each) => each.range && rectOf(each.range).column === 0 && holds(each.range, row),
    );
    return `${words}, ${of ? wordsNamed(plan, of.name) : 'first column'} = ${label}`;
  }
  return `${words}, ${typeof label === 'string' && label !== '' ? label.trim().replace(/\s+/g, ' ') : `row ${nth}`}`;
}

function holds(range: string, row: number): boolean {
  const rect = rectOf(range);
  return row >= rect.row && row < rect.row + rect.rows;
}

/** The head of the column of a table, which stands above its first cell or above the unit that does. */
function headAbove(view: SheetView, plan: Plan, first: string): string | undefined {
  const { row, column } = rectOf(first);
  for (let above = row - 1; above >= Math.max(0, row - 2); above--) {
    const head = cellName(above, column);
    if (plan.cells[head]?.role !== 'head') continue;
    const value = valueAt(view, head);
    return typeof value === 'string' && value !== '' ? value : undefined;
  }
  return undefined;
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
    if (formula === undefined || !RESULT_ROLES.has(role)) continue;
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
