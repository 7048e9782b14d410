import type { Frame } from 'playwright-core';

/** A cell's value, read in the pane through the real client library. */
export function valueAt(pane: Frame, sheet: string, address: string): Promise<unknown> {
  return pane.evaluate(
    ([name, cell]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(name!).getRange(cell!);
        range.load('values');
        await context.sync();
        return range.values[0]![0] as unknown;
      }),
    [sheet, address],
  );
}

/** Names of all sheets, in tab order. */
export function sheetNames(pane: Frame): Promise<string[]> {
  return pane.evaluate(() =>
    Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load('items/name');
      await context.sync();
      return worksheets.items.map(({ name }) => name);
    }),
  );
}

/** Where a name of a sheet points to, `B27:D29`. */
export function placeOf(pane: Frame, sheet: string, name: string): Promise<string> {
  return pane.evaluate(
    ([title, item]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(title!).names.getItem(item!).getRange();
        range.load('address');
        await context.sync();
        return range.address.slice(range.address.lastIndexOf('!') + 1);
      }),
    [sheet, name],
  );
}

/** The first value of a named range. */
export function namedValue(pane: Frame, sheet: string, name: string): Promise<unknown> {
  return pane.evaluate(
    ([title, item]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(title!).names.getItem(item!).getRange();
        range.load('values');
        await context.sync();
        return range.values[0]![0] as unknown;
      }),
    [sheet, name],
  );
}

/** All values of a named range, row by row. */
export function namedValues(pane: Frame, sheet: string, name: string): Promise<unknown[]> {
  return pane.evaluate(
    ([title, item]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(title!).names.getItem(item!).getRange();
        range.load('values');
        await context.sync();
        return range.values.flat() as unknown[];
      }),
    [sheet, name],
  );
}
