import type { CellValue } from '../sheets/book';
import type { CellName } from '../sheets/names/all';
import { IDENTITY, parseIdentity } from '../sheets/plan';
import type { CellsByName } from './host';
import { lookUp } from './lookup';
import { plain } from './read';

/** What stands behind some names of a sheet: two round trips. */
export async function readNamed(
  context: Excel.RequestContext,
  sheet: string,
  names: readonly CellName[],
): Promise<CellsByName> {
  const worksheet = context.workbook.worksheets.getItem(sheet);
  const mark = worksheet.names.getItemOrNullObject(IDENTITY);
  mark.load('formula,scope');
  const found = lookUp(worksheet, names);
  await context.sync();
  const identity =
    mark.isNullObject || mark.scope !== 'Worksheet' ? undefined : parseIdentity(String(mark.formula));
  const ranges = [...found.addresses(identity)].map(([name, address]) => {
    const range = worksheet.getRange(address);
    range.load('values,valueTypes');
    return { name, address, range };
  });
  await context.sync();
  return Object.fromEntries(
    ranges.map(({ name, address, range }) => [
      name,
      {
        address,
        values: range.values.map((row, r) =>
          row.map((value, c): CellValue => plain(value, range.valueTypes[r]?.[c])),
        ),
      },
    ]),
  );
}
