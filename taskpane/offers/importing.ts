import { createTableImport, type TableImport } from '../importing/tableimport';
import { retyped } from '../parse/quantity';
import { OFFER_NUMBERS, type OfferField, type OfferTexts } from './fields';
import { assign, type Mapping } from './mapping';
import { type ImportedRow, readRows } from './rows';
import { type OffersTable, readOffers, TEXT_MAX } from './table';

/** Offers from a file or a pasted text: taken apart, mapped, looked at, and only then taken into the fields. */
export interface Importing extends TableImport<OffersTable, Mapping, ImportedRow> {
  map(column: number, field: OfferField | undefined): void;
  /** Takes the clean rows. Their lines stay in the text until the sheet is built. */
  take(): void;
  /** The offers stand on a sheet: the text keeps the lines that were not taken. */
  settle(): void;
}

/** `take` is given the texts of the clean rows; it says what it did, and how many of them found room. */
export function createImporting(
  take: (rows: readonly OfferTexts[]) => { readonly said: string; readonly taken: number },
): Importing {
  const table = createTableImport<OffersTable, Mapping, ImportedRow>({
    limit: { bytes: 2 * TEXT_MAX, what: 'a list of offers' },
    table: readOffers,
    read: readRows,
    isClean: ({ offer }) => offer !== undefined,
    linesOf: ({ line }) => [line],
  });
  return {
    ...table,
    map: (column, field) => table.setColumns(assign(table.columns.peek() ?? [], column, field)),
    take: () => {
      const rows = table.clean.peek();
      if (rows.length === 0) return;
      const { said, taken } = take(rows.map(plainTexts));
      table.mark(rows.slice(0, taken));
      table.say(said);
    },
    settle: () => table.letGo(table.taken.peek()),
  };
}

/** The texts with their numbers written plainly, so that they mean the same without the file around them. */
function plainTexts({ texts, offer }: ImportedRow): OfferTexts {
  const plain: Record<OfferField, string> = { ...texts, currency: offer?.currency ?? texts.currency };
  for (const id of OFFER_NUMBERS) {
    const value = offer?.[id];
    if (value !== undefined) plain[id] = retyped(value);
  }
  return plain;
}
