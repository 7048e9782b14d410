import { absolute, addressOf, quoteSheet, rectOf } from './address';

/** Another sheet as one that links to it sees it: where its names stand now. */
export interface LinkedSheet {
  readonly sheet: string;
  /** Addresses of the sheet's names, without `$` and sheet name. */
  readonly addresses: Readonly<Record<string, string>>;
}

/**
 * A link to a cell behind a name of another sheet; undefined where it has no such name. The link goes to the cell
 * and not to the name: every program follows such a link when a sheet is renamed.
 */
export function linkTo(
  { sheet, addresses }: LinkedSheet,
  name: string,
  row = 0,
  column = 0,
): string | undefined {
  const address = addresses[name];
  if (!address) return undefined;
  const rect = rectOf(address);
  const at = addressOf({ row: rect.row + row, column: rect.column + column, rows: 1, columns: 1 });
  return `${quoteSheet(sheet)}!${absolute(at)}`;
}

/** A link to everything behind a name. */
export function linkToAll({ sheet, addresses }: LinkedSheet, name: string): string | undefined {
  const address = addresses[name];
  return address && `${quoteSheet(sheet)}!${absolute(address)}`;
}

/** What a linked cell says where its sheet was deleted, and while there is no number to link to. */
export const LINK_LOST = 'sheet removed';
export const LINK_WAITS = 'no figure yet';

/**
 * A number of another sheet, as a formula with leading "=" for an input cell: somebody may type over it. Where there
 * is no number it holds words, which no result takes for one.
 *
 * @param of what becomes of the number, as a formula
 */
export function figureLink(
  linked: LinkedSheet,
  name: string,
  {
    row = 0,
    of = (ref: string) => ref,
  }: { readonly row?: number; readonly of?: (ref: string) => string } = {},
): string | undefined {
  const ref = linkTo(linked, name, row);
  return ref && `=IF(ISERROR(ROWS(${ref})),"${LINK_LOST}",IF(COUNT(${ref})=1,${of(ref)},"${LINK_WAITS}"))`;
}
