import type { KnownSheet, WantedNames } from '../../src/excel/host';
import { isListed, type ListedSheet, lookedAt } from '../../src/sheets/overview';
import { SHEET_KINDS } from '../../src/sheets/plan';

/** The names an overview looks at, by kind of sheet. */
export const WANTED: WantedNames = Object.fromEntries(
  SHEET_KINDS.filter(isListed).map((kind) => [kind, lookedAt(kind)]),
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
