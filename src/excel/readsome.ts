import type { NamedValues, SheetReading, WantedNames } from './host';
import { knownSheets } from './knownsheets';
import { localAddress, plain } from './read';

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
    const items = names.map((name) => {
      const item = worksheet.names.getItemOrNullObject(name);
      item.load('formula,scope');
      return { name, item };
    });
    return [{ known, worksheet, items }];
  });
  await context.sync();
  const loaded = named.map(({ known, worksheet, items }) => {
    const ranges = items.flatMap(({ name, item }) => {
      // A sheet's list of names also finds those of the workbook.
      const address =
        item.isNullObject || item.scope !== 'Worksheet' ? undefined : localAddress(String(item.formula));
      if (!address) return [];
      const range = worksheet.getRange(address);
      range.load('values,text,valueTypes');
      return [{ name, address, range }];
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
