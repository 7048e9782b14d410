import type { NamedValues, SheetReading, WantedNames } from './host';
import { knownSheets } from './knownsheets';
import { lookUp } from './lookup';
import { plain } from './read';

/** What is behind some names of our sheets. */
export async function readSome(
  context: Excel.RequestContext,
  wanted: WantedNames,
): Promise<readonly SheetReading[]> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const ours = await knownSheets(context, worksheets.items);
  const named = ours.flatMap((known) => {
    const names = wanted[known.kind];
    if (!names) return [];
    const worksheet = worksheets.getItem(known.sheet);
    return [{ known, worksheet, found: lookUp(worksheet, names) }];
  });
  await context.sync();
  const loaded = named.map(({ known, worksheet, found }) => {
    const ranges = [...found.addresses(known)].map(([name, address]) => {
      const range = worksheet.getRange(address);
      range.load('values,text,valueTypes');
      return { name, address, range };
    });
    return { known, ranges };
  });
  await context.sync();
  return loaded.map(({ known, ranges }) => ({
    ...known,
    values: Object.fromEntries(
      ranges.map(({ name, address, range }): [string, NamedValues] => [
        name,
        {
          address,
          values: range.values.map((row, r) => row.map((value, c) => plain(value, range.valueTypes[r]?.[c]))),
          texts: range.text,
        },
      ]),
    ),
  }));
}
