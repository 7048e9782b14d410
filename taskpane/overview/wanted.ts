import type { KnownSheet, WantedNames } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { isListed, type ListedSheet, lookedAt } from '../../src/sheets/overview';
import { SHEET_KINDS, type SheetKind } from '../../src/sheets/plan';

/** What the next step with a sheet hangs on, beside what an overview tells. */
const ALSO: { readonly [Kind in SheetKind]?: readonly CellName[] } = {
  offers: ['ChosenOffer'],
  acceptance: ['Failures'],
};

/** The names by which the pane tells how a sheet stands, and what comes next with it. */
export const toldBy = (kind: SheetKind): CellName[] => [...lookedAt(kind), ...(ALSO[kind] ?? [])];

/** These names, by kind of sheet. */
export const WANTED: WantedNames = Object.fromEntries(
  SHEET_KINDS.filter(isListed).map((kind) => [kind, toldBy(kind)]),
);

/** A sheet as an overview lists it. */
export function listedSheet({
  sheet,
  kind,
  id,
  isSealed,
  values,
}: KnownSheet & { readonly values: ListedSheet['cells'] }): ListedSheet {
  return { sheet, kind, id, isSealed: isSealed === true, cells: values };
}
