import type { Book, CellValue } from '../sheets/book';
import { isFilled } from './check/contents';
import { expectedOf } from './expected';
import { isError } from './formula/value';
import type { ResultCell } from './kinds/kind';
import { laidOut } from './laidout';
import { builtToday, isOlder } from './today';
import { cellAt, type SheetView, valueAt } from './view';

/** A result as it stands in a workbook. */
export interface SheetResult {
  /** `WhiteLightOutput`; of a table with the line, `OfferCost[2]`. */
  readonly name: string;
  readonly label: string;
  /** An error cell is its text. */
  readonly value: number | string | boolean | null;
  readonly unit: string;
  readonly cell: string;
  /** How the cell shows it, for people. */
  readonly format: string;
  /** Whether a plain formula stands in for a function that was not computed. */
  readonly isLacking: boolean;
  /** Whose value it is: the add-in's function, or the plain formula where the function was not computed. */
  readonly by: 'function' | 'plain formula';
}

export type SheetResults =
  | { readonly known: true; readonly results: readonly SheetResult[] }
  | { readonly known: false; readonly why: string };

/**
 * The results of a sheet of ours. Those of an earlier layout are found by their names; results that bear none, and
 * those that today's layout does not have, are left out.
 */
export function resultsOf(view: SheetView, book: Book): SheetResults {
  const isOfBefore = isOlder(view);
  const expected = isOfBefore ? builtToday(view, book) : expectedOf(view, book);
  if (!expected.known) return expected;
  const { plan, audit } = expected;
  const isTable = (at: string) => plan.cells[at] !== undefined && isFilled(plan.cells[at]);
  if (!isOfBefore) {
    const found = audit.results(view, plan);
    return { known: true, results: found.map((each) => resultAt(view, each, isTable(each.at))) };
  }
  const { view: anew, places } = laidOut(view, plan);
  const results = audit.results(anew, plan).flatMap(({ twinAt: twin, ...each }) => {
    const at = places.get(each.at);
    const twinAt = twin === undefined ? undefined : places.get(twin);
    // Some lines name the plain formula only: then that is the result.
    if (at === undefined) return twinAt === undefined ? [] : [resultAt(view, { ...each, at: twinAt }, false)];
    const cell = { ...each, at, ...(twinAt === undefined ? {} : { twinAt }) };
    return [resultAt(view, cell, isTable(each.at))];
  });
  return { known: true, results };
}

function resultAt(
  view: SheetView,
  { name, label, unit, at, twinAt }: ResultCell,
  isTable: boolean,
): SheetResult {
  const [value, twin] = [valueAt(view, at), twinAt === undefined ? null : valueAt(view, twinAt)];
  const isLacking =
    typeof value !== 'number' && twinAt !== undefined && (isError(value) || typeof twin === 'number');
  const isFunction = !isLacking && (isTable || /LIGHT\./i.test(cellAt(view, at)?.formula ?? ''));
  return {
    name,
    label,
    // A part of 1 that the cell shows as a percentage.
    unit: unit === '%' ? '' : unit,
    format: cellAt(view, isLacking ? twinAt : at)?.style?.format ?? '',
    isLacking,
    value: plain(isLacking ? twin : value),
    cell: isLacking ? twinAt : at,
    by: isFunction ? 'function' : 'plain formula',
  };
}

function plain(value: CellValue): number | string | boolean | null {
  return isError(value) ? value.error : value;
}
