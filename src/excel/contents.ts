import { cellsOf, rectOf } from '../sheets/address';
import { moveFormula } from '../sheets/move';
import type { Plan, PlanCell } from '../sheets/plan';
import { filledAreas, matrix } from './areas';
import { cellInput } from './cellinput';
import type { Ranges } from './ranges';
import { rectangles } from './rectangles';

/*
 * What stands in the cells of a plan, in few bytes: cells without anything are not sent where that is cheaper, and
 * a formula that repeats is sent once and copied by the host.
 */

/** About what a range costs in a message, and what it costs to copy something to it, in bytes. */
const RANGE = 200;
const COPY = 400;
/** What a cell costs in a matrix that leaves it alone: `null,`. */
const LEFT_ALONE = 5;

export function writeContents(ranges: Ranges, plan: Plan, areas: readonly string[]): void {
  const copies = repeatsIn(plan, areas.flatMap(cellsOf));
  const copied = new Set(copies.flatMap(({ others }) => others));
  const contentAt = (at: string) => {
    const { formula, value } = plan.cells[at] ?? {};
    return copied.has(at) ? null : (formula ?? cellInput(value ?? null));
  };
  for (const area of areas.flatMap((whole) => filledAreas(whole, (at) => contentAt(at) !== null)))
    ranges.at(area).formulas = matrix(area, contentAt);
  for (const { first, range } of copies) ranges.at(range).copyFrom(ranges.at(first), 'Formulas');
}

interface Repeat {
  readonly first: string;
  readonly range: string;
  readonly others: readonly string[];
}

/** Rectangles of one formula that follows its cell, where copying is less to send than writing each. */
function repeatsIn(plan: Plan, places: readonly string[]): Repeat[] {
  const keys = new Map<string, string>();
  for (const at of places) {
    const { formula } = plan.cells[at] ?? {};
    if (formula !== undefined) keys.set(at, asInFirstCell(at, formula));
  }
  const alike = new Map<string, string[]>();
  for (const { key, range } of rectangles(keys)) alike.set(key, [...(alike.get(key) ?? []), range]);
  return [...alike.values()].flatMap((found) => {
    const first = cellsOf(found[0]!)[0]!;
    const worth = found
      .map((range) => ({ first, range, others: cellsOf(range).filter((at) => at !== first) }))
      .map((repeat) => ({ repeat, saved: savedBy(plan, repeat) }))
      .filter(({ saved }) => saved > 0);
    const saved = worth.reduce((sum, one) => sum + one.saved, 0);
    return saved > RANGE ? worth.map(({ repeat }) => repeat) : [];
  });
}

function savedBy(plan: Plan, { others }: Repeat): number {
  return others.reduce((sum, at) => sum + sizeOf(plan.cells[at]!) - LEFT_ALONE, 0) - COPY;
}

/** A formula as it would be in A1: the same for all cells that it could be copied to from one of them. */
function asInFirstCell(at: string, formula: string): string {
  const { row, column } = rectOf(at);
  return moveFormula(formula, -row, -column);
}

/** What a formula costs in a message: JSON within JSON, where a quotation mark takes four bytes. */
function sizeOf({ formula = '' }: PlanCell): number {
  return formula.length + 5 + 3 * (formula.split('"').length - 1);
}
