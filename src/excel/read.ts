import { rectOf } from '../sheets/address';
import type { CellValue, ErrorKind } from '../sheets/book';
import { isBuiltIn } from '../sheets/builtin';
import { IDENTITY, type Identity, parseIdentity } from '../sheets/plan';
import { HostError, type NamedValues } from './host';

/** A sheet-scoped name that points into its own sheet → the address without `$`; anything else → undefined. */
export function localAddress(formula: string): string | undefined {
  const match = /!(\$?[A-Z]{1,3}\$?[0-9]+(?::\$?[A-Z]{1,3}\$?[0-9]+)?)$/.exec(formula);
  return match ? match[1]!.replace(/\$/g, '') : undefined;
}

/** The used range of a sheet, loaded: values, texts and what kind of value each is. */
export interface Loaded {
  readonly address: string;
  readonly values: unknown[][];
  readonly text: string[][];
  readonly valueTypes: string[][];
}

/** The cells behind an address, cut out of the used range; cells outside it are empty. */
export function cut({ address, values, text, valueTypes }: Loaded, at: string): NamedValues {
  const used = rectOf(address.slice(address.lastIndexOf('!') + 1));
  const { row, column, rows, columns } = rectOf(at);
  const rowsOf = <T>(from: (r: number, c: number) => T): T[][] =>
    Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (_, c) => from(row + r - used.row, column + c - used.column)),
    );
  return {
    address: at,
    values: rowsOf((r, c) => plain(values[r]?.[c], valueTypes[r]?.[c])),
    texts: rowsOf((r, c) => text[r]?.[c] ?? ''),
  };
}

/** A value as Office.js gives it → ours; `type` is the cell's `valueTypes` entry. */
export function plain(value: unknown, type: string | undefined): CellValue {
  if (value === undefined || value === '' || type === 'Empty') return null;
  if (type === 'Error') return { error: String(value) as ErrorKind };
  return value as CellValue;
}

/** A sheet's own names: the list also has those of the workbook, and the program's for printing and filters. */
export function ownNames(names: Excel.NamedItemCollection): Excel.NamedItem[] {
  return names.items.filter(({ name, scope }) => scope === 'Worksheet' && !isBuiltIn(name));
}

/** The identity among a sheet's own names. */
export function identityOf(names: readonly { name: string; formula: string }[]): Identity | undefined {
  const found = names.find(({ name }) => name === IDENTITY);
  return found ? parseIdentity(found.formula) : undefined;
}

export function notOurs(sheet: string): HostError {
  return new HostError(
    'missing',
    `"${sheet}" is not one of our sheets, or its hidden mark was deleted.`,
    'Choose another sheet, or build a fresh one.',
  );
}
