import { likelyMarks, type Reader, type Refusal, readTable, type Table } from '../../src/csv/table';
import type { ImportTable } from '../importing/tableimport';
import { guess, type Mapping } from './mapping';

/** An offers file taken apart into cells. */
export type OffersTable = ImportTable<Mapping>;

/** A list of offers is no database: more is a wrong file. */
export const TEXT_MAX = 500_000;
export const LINES_MAX = 500;

const READER: Reader<OffersTable> = {
  bounds: { what: 'a list of offers', characters: TEXT_MAX, lines: LINES_MAX },
  marks: (text) => {
    const [first, ...others] = likelyMarks(text);
    // A lone semicolon inside a name would settle it otherwise. One space is no sign of a column, since names of
    // bidders have several words.
    if (first === 'semicolon') return ['semicolon', 'none', 'comma'];
    return [first!, ...others.filter((mark) => mark === 'comma')];
  },
  describe: described,
  // Where a text can be taken apart in two ways, the way whose headings are known was meant.
  score: ({ guess, columns }) => 2 * guess.filter(Boolean).length + (columns > 1 ? 1 : 0),
};

/** Text of a file or the clipboard → cells; or why it is not a table. */
export function readOffers(text: string): OffersTable | Refusal | undefined {
  return readTable(text, READER);
}

function described(table: Table): OffersTable {
  const first = table.lines[0]?.cells ?? [];
  const mapping = guess(first);
  const hasHeadings =
    mapping.some((field) => field !== undefined) &&
    !first.some((cell) => /^[\s\d.,'-]*\d[\s\d.,'-]*$/.test(cell));
  return { ...table, hasHeadings, guess: hasHeadings ? mapping : first.map(() => undefined) };
}
