/*
 * A record of how the files beside it were made, run once at commit b2da8a1; see files.maker.ts.
 *
 * Second step: what a person makes with the pane in the workbench, saved by its own button.
 */
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { expect, test } from 'vitest';
import { goTo, openWorkbench, type Workbench } from '../../../e2e/browser';
import { namedValue, placeOf, sheetNames } from '../../../e2e/cells';
import { build, fillForm } from '../../../e2e/pane';
import { EXPECTED, fillRun } from '../../../e2e/readings';

const HERE = join(import.meta.dirname, '..');
const step = (pane: Frame, name: string) =>
  pane.getByRole('navigation').getByRole('button', { name }).click();

async function save({ page, errors }: Workbench, name: string): Promise<void> {
  const [saved] = await Promise.all([page.waitForEvent('download'), page.getByText('Save as .xlsx').click()]);
  await saved.saveAs(join(HERE, `${name}.xlsx`));
  expect(errors).toEqual([]);
}

test('the example', async () => {
  const workbench = await openWorkbench();
  const { pane } = workbench;
  await pane.getByRole('button', { name: 'Open the example' }).click();
  await pane.getByText(/^Built \d+ sheets\. /).waitFor({ timeout: 300_000 });
  const acceptance = (await sheetNames(pane)).find((name) => name.startsWith('Acceptance'))!;
  await expect.poll(() => namedValue(pane, acceptance, 'LotVerdict')).toBe('rejected');
  await save(workbench, 'example-workbench');
  await workbench.close();
});

test('a run, traced, checked, sealed and signed', async () => {
  const workbench = await openWorkbench();
  const { pane, page } = workbench;
  const press = (name: string) => pane.getByRole('button', { name, exact: true }).click();
  await fillForm(pane, { projector: 'Quayside reading room (invented)', mode: 'Bright', width: '1.6' });
  const sheet = await build(pane);
  await fillRun(pane, sheet);
  await step(pane, 'Trace');
  await expect
    .poll(() => namedValue(pane, sheet, 'WhiteLightOutput'))
    .toBeCloseTo(EXPECTED.WhiteLightOutput!, 8);
  await goTo(page, (await placeOf(pane, sheet, 'WhiteLightOutput')).split(':')[0]!);
  await press('Trace the selected cell');
  await pane.getByRole('list', { name: /^Chain of White light output/ }).waitFor();
  await press('Write the chain to a sheet');
  await pane.getByText(/^Wrote the chain to the sheet “Trace /).waitFor();
  await page.getByText(sheet, { exact: true }).click();
  await press('Check the whole workbook');
  await pane.getByText(/ 1 sheet checked\.$/).waitFor();
  await press('Write the findings to a sheet');
  await pane.getByText(/^Wrote the findings to the sheet “Findings/).waitFor();
  await page.getByText(sheet, { exact: true }).click();
  await pane.getByLabel('Who seals or opens').fill('A. Nobody (invented)');
  await pane.locator('.keys > summary').click();
  await press('Make a key');
  await pane.getByText(/^A key was made\. It stays in this browser/).waitFor();
  await press('Seal this sheet');
  await pane.getByText(/^Sealed “.*” and signed the seal\.$/).waitFor();
  await save(workbench, 'sealed-workbench');
  await workbench.close();
});
