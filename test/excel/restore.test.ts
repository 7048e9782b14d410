import { beforeEach, describe, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { rangeNamed } from '../sheets/named';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/* Selection, names and putting back, through the real client library. */
const plan = runPlan(
  { ...defaultRunSetup(), projector: 'Unit 7 (invented)', mode: 'Bright', colour: 'none', black: false },
  'u7',
);
let host: Host;
let test: TestHost;
let sheet: string;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
  ({ sheet } = await host.build(plan));
});

const rangeOf = (name: string) => rangeNamed(plan, name);
const look = async () => (await host.book({ sheets: [sheet] })).sheets[0]!;

/** As a person who has lifted the protection. */
async function byHand(change: (worksheet: Excel.Worksheet) => void): Promise<void> {
  await test.run(async (context) => {
    const worksheet = context.workbook.worksheets.getItem(sheet);
    worksheet.protection.unprotect();
    change(worksheet);
    await context.sync();
  });
}

it('tells where the cursor is', async () => {
  await host.select(sheet, 'WhiteLightOutput');
  expect(await host.selection()).toEqual({ sheet, cell: rangeOf('WhiteLightOutput') });
});

describe('names', () => {
  it('are set and taken away on the sheet and in the workbook, hidden ones hidden, and it stays protected', async () => {
    const long = `="${'x'.repeat(200)}"&"${'y'.repeat(200)}"`;
    await host.editNames([
      { sheet, remove: [], set: [{ name: 'LightSeal', refersTo: long, hidden: true }] },
      { remove: [], set: [{ name: 'LightBook', refersTo: '="one"', hidden: true }] },
    ]);
    expect((await look()).names).toContainEqual({ name: 'LightSeal', refersTo: long, hidden: true });
    expect((await host.book()).names).toEqual([{ name: 'LightBook', refersTo: '="one"', hidden: true }]);

    await host.editNames([
      { sheet, remove: ['LightSeal', 'LightBook', 'NeverThere'], set: [] },
      { remove: [], set: [{ name: 'LightBook', refersTo: '="two"', hidden: true }] },
    ]);
    const after = await look();
    expect(after.names.map(({ name }) => name)).not.toContain('LightSeal');
    expect(after.isProtected).toBe(true);
    // The workbook's name of the same spelling was not the sheet's to take away.
    expect((await host.book()).names).toEqual([{ name: 'LightBook', refersTo: '="two"', hidden: true }]);
  });

  it('of a sheet that is gone change nothing elsewhere', async () => {
    const refused = host.editNames([
      { sheet: 'Gone', remove: [], set: [] },
      { remove: [], set: [{ name: 'LightBook', refersTo: '="one"' }] },
    ]);
    await expect(refused).rejects.toMatchObject({ trouble: 'missing' });
    expect((await host.book()).names).toEqual([]);
  });
});

describe('putting back', () => {
  const at = rangeOf('WhiteLightOutputPlain');
  const { formula, format } = plan.cells[at]!;

  it('a formula, where a number in a cell for text stands now', async () => {
    await byHand((worksheet) => {
      worksheet.getRange(at).numberFormat = [['@']];
      worksheet.getRange(at).values = [[2300]];
    });
    await host.restore(sheet, { cells: [{ at, formula: formula!, format: format! }] });
    const { cells, isProtected } = await look();
    expect(cells[at]).toMatchObject({ formula, style: { format } });
    expect(isProtected).toBe(true);
  });

  it('a lock, an empty cell and an input rule', async () => {
    const rule = plan.validations.find(({ range }) => range === rangeOf('WhiteReadings'))!;
    await byHand((worksheet) => {
      worksheet.getRange(at).format.protection.locked = false;
      worksheet.getRange('Z99').values = [['stray']];
      worksheet.getRange(rule.range).dataValidation.clear();
    });
    await host.restore(sheet, {
      cells: [
        { at, isLocked: true },
        { at: 'Z99', value: null },
      ],
      validations: [rule],
    });
    const after = (await host.book({ sheets: [sheet], validations: { [sheet]: [rule.range] } })).sheets[0]!;
    expect(after.cells[at]!.style?.locked).toBeUndefined();
    expect(after.cells.Z99?.value ?? null).toBe(null);
    expect(after.validations).toEqual([rule]);
    expect(after.cells[at]!.formula).toBe(formula);
  });

  it('nothing, which only protects', async () => {
    await byHand(() => undefined);
    expect((await look()).isProtected).toBe(false);
    await host.restore(sheet, {});
    expect((await look()).isProtected).toBe(true);
  });
});
