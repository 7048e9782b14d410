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
