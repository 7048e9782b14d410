import { type Table, tables } from '../parse/delimited';
import { guess, type Mapping } from './mapping';

/** An offers file taken apart into cells. */
export interface OffersTable {
  readonly how: string;
  /** Every line of the file with its place, counted from 1. Lines without any text are left out. */
  readonly lines: readonly { readonly line: number; readonly cells: readonly string[] }[];
  readonly columns: number;
  /** True where the first line looks like headings. */
  readonly hasHeadings: boolean;
  readonly mapping: Mapping;
}

/** A list of offers is no database: more is a wrong file. */
export const TEXT_MAX = 500_000;
export const LINES_MAX = 500;

/** Text of a file or the clipboard → cells; or why it is not a table. */
export function readTable(text: string): OffersTable | string {
  if (text.trim() === '') return '';
  if (text.length > TEXT_MAX) return 'This is far more text than a list of offers: choose another file.';
  if (text.includes('\u0000')) return 'This is not a text file. Save the list as CSV first.';
  const found = waysToSplit(text).map(({ delimiter, rows }) => described(delimiter, rows));
  // Where a text can be taken apart in two ways, the way whose headings are known was meant.
  const best = found.reduce((a, b) =>
    known(b) > known(a) || (known(b) === known(a) && a.columns < 2 && b.columns > 1) ? b : a,
  );
  if (best.lines.length > LINES_MAX + 1)
    return `The list has ${best.lines.length} lines; at most ${LINES_MAX} offers can be taken at once.`;
  return best;
}

/** Stands for a semicolon while a text is split at other marks. */
const MASK = '\ue000';

/** The ways to split; one space is no sign of a column here, since names of bidders have several words. */
function waysToSplit(text: string): readonly Table[] {
  const first = tables(text);
  // A lone semicolon inside a name would settle it otherwise.
  const others = first[0]?.delimiter === 'semicolon' ? tables(text.replaceAll(';', MASK)) : [];
  return [...first, ...others.map(unmasked)].filter(
    ({ delimiter }) => delimiter !== 'space' && delimiter !== 'comma and space',
  );
}

function unmasked({ delimiter, rows }: Table): Table {
  return { delimiter, rows: rows.map((cells) => cells.map((cell) => cell.replaceAll(MASK, ';'))) };
}

function known({ mapping }: OffersTable): number {
  return mapping.filter((field) => field !== undefined).length;
}

function described(delimiter: string, rows: readonly (readonly string[])[]): OffersTable {
  const lines = rows
    .map((cells, i) => ({ line: i + 1, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const first = lines[0]?.cells ?? [];
  const mapping = guess(first);
  const hasHeadings =
    mapping.some((field) => field !== undefined) &&
    !first.some((cell) => /^[\s\d.,'-]*\d[\s\d.,'-]*$/.test(cell));
  return {
    how: delimiter === 'none' ? 'Only one column was found.' : `Cells end at each ${delimiter}.`,
    lines,
    columns: first.length,
    hasHeadings,
    mapping: hasHeadings ? mapping : first.map(() => undefined),
  };
}
