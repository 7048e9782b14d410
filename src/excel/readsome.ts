import { SEAL } from '../audit/seal/names';
import { IDENTITY, parseIdentity } from '../sheets/plan';
import type { KnownSheet, NamedValues, SheetReading, WantedNames } from './host';
import { localAddress, plain } from './read';

/** Our sheets in tab order. The sheets' names must be loaded. */
export async function knownSheets(
  context: Excel.RequestContext,
  worksheets: readonly Excel.Worksheet[],
): Promise<KnownSheet[]> {
  const marks = worksheets.map((sheet) => {
    const mark = sheet.names.getItemOrNullObject(IDENTITY);
    const seal = sheet.names.getItemOrNullObject(SEAL);
    mark.load('formula');
    seal.load('scope');
    return { sheet: sheet.name, mark, seal };
  });
  await context.sync();
  return marks.flatMap(({ sheet, mark, seal }): KnownSheet[] => {
    const identity = mark.isNullObject ? undefined : parseIdentity(String(mark.formula));
    return identity
      ? [{ sheet, ...identity, ...(seal.isNullObject ? {} : { isSealed: true as const }) }]
      : [];
  });
}

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
