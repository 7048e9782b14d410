import type { Frame } from 'playwright-core';
import { expect } from 'vitest';
import { localAddress } from '../../src/excel/read';
import { besidesOf } from '../../src/sheets/names/beside';
import { IDENTITY, parseIdentity } from '../../src/sheets/plan';

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

/** Where a name of a sheet points to, or what stands beside one and has none: `B27:D29`. */
export async function placeOf(pane: Frame, sheet: string, name: string): Promise<string> {
  const names = await pane.evaluate(
    ([title]) =>
      Excel.run(async (context) => {
        const { names: own } = context.workbook.worksheets.getItem(title!);
        own.load('items/name,items/formula,items/scope');
        await context.sync();
        return own.items
          .filter(({ scope }) => scope === 'Worksheet')
          .map((item) => [item.name, String(item.formula)] as const);
      }),
    [sheet],
  );
  const identity = parseIdentity(names.find(([own]) => own === IDENTITY)?.[1] ?? '');
  const own = new Map(
    names.flatMap(([each, formula]) => {
      const address = localAddress(formula);
      return address ? [[each, address] as const] : [];
    }),
  );
  const all = new Map<string, string>([...own, ...(identity ? besidesOf(identity, own) : [])]);
  const address = all.get(name);
  if (address === undefined) throw new Error(`“${sheet}” has no ${name}`);
  return address;
}

/** The first value of a named range when it is calculated. */
export async function namedValue(pane: Frame, sheet: string, name: string): Promise<unknown> {
  return (await namedValues(pane, sheet, name))[0];
}

/** All values of a named range, row by row, when they are calculated. */
export async function namedValues(pane: Frame, sheet: string, name: string): Promise<unknown[]> {
  await calculated(pane);
  return valuesIn(pane, sheet, await placeOf(pane, sheet, name));
}

function valuesIn(pane: Frame, sheet: string, address: string): Promise<unknown[]> {
  return pane.evaluate(
    ([title, area]) =>
      Excel.run(async (context) => {
        const range = context.workbook.worksheets.getItem(title!).getRange(area!);
        range.load('values');
        await context.sync();
        return range.values.flat() as unknown[];
      }),
    [sheet, address],
  );
}
