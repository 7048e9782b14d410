import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { logPlan, withLines } from '../../../src/sheets/log';
import { realize } from '../../../src/sheets/realize';
import { memoryPreferences } from '../../../taskpane/preferences';
import { newRunOf } from '../../../taskpane/run/newrun';
import type { Store } from '../../../taskpane/store';
import type { FakeHost } from '../fakehost';
import { hostWith, one, openTrace, placeOf } from './audited';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const type = (label: string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });
const deeds = (host: FakeHost) => host.logged.map(({ what, sheet, who }) => [what, sheet, who]);

describe('the log is told', () => {
  it('of checks, repairs, seals and openings, by whom and to which sheet', async () => {
    const host = one();
    const sheet = host.active;
    stores.push(await openTrace(host));
    type('Who works here', 'A. Nobody');
    host.edit(sheet, () => ({ isProtected: false }));
    press('Check this sheet');
    fireEvent.click(await screen.findByRole('button', { name: 'Protect the sheet again' }));
    await screen.findByText(/^Repaired/);
    press('Seal this sheet');
    await screen.findByText(/^Sealed “/);
    type('Why it is opened', '=1+1');
    press('Take the seal off');
    await screen.findByText(/is open again/);
    await waitFor(() =>
      expect(deeds(host)).toEqual([
        ['checked', sheet, 'A. Nobody'],
        ['repaired', sheet, 'A. Nobody'],
        ['checked', sheet, 'A. Nobody'],
        ['sealed', sheet, 'A. Nobody'],
        ['reopened', sheet, 'A. Nobody'],
      ]),
    );
    expect(host.logged[1]!.detail).toContain('Protect the sheet again');
    expect(host.logged.at(-1)!.detail).toBe('=1+1');
    expect(host.logged.every(({ program, when }) => program !== '' && /^\d{4}-.*Z$/.test(when))).toBe(true);
  });

  it('of every sheet that any step builds', async () => {
    const host = one();
    host.cursor = placeOf(host, 'ImageArea');
    stores.push(await openTrace(host));
    press('Trace the selected cell');
    fireEvent.click(await screen.findByRole('button', { name: 'Write the chain to a sheet' }));
    await screen.findByText(/^Wrote the chain to the sheet/);
    stores[0]!.open('run');
    await screen.findByRole('heading', { name: 'New run' });
    await newRunOf(stores[0]!).build();
    await waitFor(() => expect(host.logged.map(({ what }) => what)).toContain('exported'));
    expect(host.logged[0]!.detail).toBe('Chain of a result, as a sheet');
  });
});

it('remembers who works here, once it was said', async () => {
  const preferences = memoryPreferences();
  stores.push(await openTrace(one(), { preferences }));
  type('Who works here', 'A. Nobody');
  cleanup();
  stores.push(await openTrace(one(), { preferences }));
  expect((screen.getByLabelText('Who works here') as HTMLInputElement).value).toBe('A. Nobody');
  expect((screen.getByLabelText('Who seals or opens') as HTMLInputElement).value).toBe('A. Nobody');
});

it('can be switched off, and stays off', async () => {
  const preferences = memoryPreferences();
  const host = one();
  stores.push(await openTrace(host, { preferences }));
  fireEvent.click(screen.getByLabelText('Keep a log in the workbook'));
  press('Check this sheet');
  await screen.findByText(/1 sheet checked/);
  expect(host.logged).toEqual([]);
  cleanup();
  stores.push(await openTrace(one(), { preferences }));
  expect((screen.getByLabelText('Keep a log in the workbook') as HTMLInputElement).checked).toBe(false);
});

it('keeps the lines that the program does not take, says why, and writes them later in order', async () => {
  const host = one();
  stores.push(await openTrace(host));
  host.failNext('appendLog', new HostError('protected', 'It has a password.', 'Lift it first.', 'x'));
  press('Check this sheet');
  expect(
    await screen.findByText(/1 line not yet in the log\. It has a password\. Lift it first\./),
  ).toBeTruthy();
  expect(host.logged).toEqual([]);
  press('Try again');
  await waitFor(() => expect(host.logged.map(({ what }) => what)).toEqual(['checked']));
  expect(screen.queryByText(/not yet in the log/)).toBeNull();
  // Nothing of it stood in the way of the check itself.
  expect(screen.getByText(/^Yes: .* 1 sheet checked/)).toBeTruthy();
});

it('shows the last lines and goes to the sheet', async () => {
  const lines = Array.from({ length: 10 }, (_, i) => ({
    when: '2026-11-25T09:30:00Z',
    who: 'A. Nobody',
    what: 'built' as const,
    sheet: `Run ${i}`,
    detail: i === 9 ? '=HYPERLINK("x")' : '',
    program: '0.1.0',
  }));
  const sheet = withLines(realize(logPlan('log1')), lines);
  const host = hostWith([sheet]);
  stores.push(await openTrace(host));
  press('Show the last lines');
  expect(await screen.findByText('10 lines in “Log”; the last 8:')).toBeTruthy();
  const shown = within(screen.getByRole('list', { name: 'Last lines of the log' })).getAllByRole('listitem');
  expect(shown).toHaveLength(8);
  expect(shown[0]!.textContent).toContain('“Run 9”');
  expect(shown[0]!.textContent).toContain('=HYPERLINK("x")');
  press('Go to the log');
  await waitFor(() => expect(host.selected).toEqual(['Log!LogHead']));
});

it('is not there before anything was done', async () => {
  stores.push(await openTrace(one()));
  press('Show the last lines');
  expect(await screen.findByText(/^There is no log in this workbook yet: tick/)).toBeTruthy();
});
