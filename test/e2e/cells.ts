import type { Frame } from 'playwright-core';
import { expect } from 'vitest';

/** Waits until everything is calculated and every function has answered. */
async function calculated(pane: Frame): Promise<void> {
  const state = () =>
    pane.evaluate(() =>
      Excel.run(async (context) => {
        const { application } = context.workbook;
        application.load('calculationState');
        await context.sync();
        return application.calculationState as string;
      }),
    );
  await expect.poll(state).toBe('Done');
}

/** A cell's value when it is calculated, read in the pane through the real client library. */
export async function valueAt(pane: Frame, sheet: string, address: string): Promise<unknown> {
  await calculated(pane);
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

/** The first value of a named range when it is calculated. */
export async function namedValue(pane: Frame, sheet: string, name: string): Promise<unknown> {
  return (await namedValues(pane, sheet, name))[0];
}

/** The first value of a named range as it is now. */
export function valueNow(pane: Frame, sheet: string, name: string): Promise<unknown> {
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

/** All values of a named range, row by row, when they are calculated. */
export async function namedValues(pane: Frame, sheet: string, name: string): Promise<unknown[]> {
  await calculated(pane);
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
