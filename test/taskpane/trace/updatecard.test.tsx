import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { linkedSheets } from '../../../src/audit/kinds/links';
import { gridOf, viewOf } from '../../../src/audit/view';
import { HostError } from '../../../src/excel/host';
import { RUN_VERSION } from '../../../src/sheets/run';
import { readXlsx } from '../../../src/xlsx';
import type { Store } from '../../../taskpane/store';
import type { FakeHost } from '../fakehost';
import { hostWith, one, openTrace } from './audited';

/*
 * A sheet of an earlier layout is brought up to date from the pane: the frozen workbook of a run and its certificate,
 * as the first program made it (test/frozen).
 */

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});
const FROZEN = join(import.meta.dirname, '../../frozen/first/certificate-plainest.xlsx');
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));

async function withOld(): Promise<{ host: FakeHost; run: string; paper: string }> {
  const { sheets } = await readXlsx(new Uint8Array(readFileSync(FROZEN)));
  const named = (kind: string) => sheets.find((sheet) => viewOf(sheet).identity?.kind === kind)!.name;
  const host = hostWith(sheets);
  const [run, paper] = [named('run'), named('certificate')];
  host.active = run;
  stores.push(await openTrace(host));
  return { host, run, paper };
}
const view = (host: FakeHost, sheet: string) => viewOf(host.sheets.get(sheet)!.book);

it('says nothing beside a sheet of today', async () => {
  stores.push(await openTrace(one()));
  expect(screen.queryByRole('heading', { name: 'Bring up to date' })).toBeNull();
});

it('builds a sheet of today beside one of before, with its table; the old one and links to it stay', async () => {
  const { host, run, paper } = await withOld();
  const before = view(host, run);
  press('Look what would differ');
  expect(
    await screen.findByText(/^(?:Every figure would be the same\.|\d+ figures would differ:)$/),
  ).toBeTruthy();
  expect(screen.getByRole('list', { name: 'Links to this sheet' }).textContent).toMatch(/\d+ links of “/);
  press('Build the new sheet');
  expect(
    await screen.findByText(/is built from what was typed on .* lists what differs and why\.$/),
  ).toBeTruthy();
  const [made, table] = [...host.sheets.keys()].slice(-2) as [string, string];
  expect(view(host, made).identity).toMatchObject({ kind: 'run', version: RUN_VERSION });
  expect(view(host, made).identity!.id).not.toBe(before.identity!.id);
  expect(view(host, table).identity?.kind).toBe('findings');
  for (const name of ['WhiteReadings', 'Projector', 'Meter', 'MeasuredBy'] as const)
    expect(gridOf(view(host, made), name), name).toEqual(gridOf(before, name));
  expect(view(host, run).sheet).toBe(before.sheet);
  expect(linkedSheets(view(host, paper))).toEqual([run]);
  await waitFor(() => expect(host.logged.map(({ what }) => what)).toEqual(['renewed']));
  // They can be told to go later, too.
  press(`Let the links go to “${made}” now`);
  expect(await screen.findByText(/^\d+ links go to “.*” now\.$/)).toBeTruthy();
  expect(linkedSheets(view(host, paper))).toEqual([made]);
});

it('moves the links when told to, and those that were refused at a second try', async () => {
  const { host, run, paper } = await withOld();
  press('Look what would differ');
  fireEvent.click(await screen.findByLabelText('Let these links go to the new sheet'));
  host.failNext('restore', new HostError('busy', 'It is busy.', 'Try again.'));
  press('Build the new sheet');
  expect(await screen.findByText('It is busy.')).toBeTruthy();
  expect(screen.getByText(/is built from what was typed on/)).toBeTruthy();
  expect(linkedSheets(view(host, paper))).toEqual([run]);
  press(/^Let the links go to/);
  await waitFor(() => expect(linkedSheets(view(host, paper))).toEqual([[...host.sheets.keys()].at(-2)]));
  expect(screen.queryByRole('button', { name: /^Let the links go to/ })).toBeNull();
});

it('lists what differs, with the cell and the reason', async () => {
  const { host, run } = await withOld();
  const at = view(host, run).places.get('imagearea')!.address;
  host.put(run, 'ImageArea', [[9.75]]);
  press('Look what would differ');
  const list = await screen.findByRole('list', { name: 'What would differ' });
  const [first] = within(list).getAllByRole('listitem');
  expect(first!.textContent).toMatch(/9\.75.*does not follow from what was typed/);
  fireEvent.click(within(first!).getByRole('button', { name: `Go to ${at}` }));
  await waitFor(() => expect(host.selected).toEqual([`${run}!${at}`]));
});
