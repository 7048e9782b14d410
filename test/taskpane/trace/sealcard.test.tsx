import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import type { Store } from '../../../taskpane/store';
import type { FakeHost } from '../fakehost';
import { compared } from '../scenes';
import { one, openTrace, placeOf, several } from './audited';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const type = (label: string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

async function sealed(host: FakeHost): Promise<void> {
  stores.push(await openTrace(host));
  type('Who seals or opens', 'A. Nobody');
  press('Seal this sheet');
  await screen.findByText(/^Sealed “/);
}

it('asks who seals', async () => {
  const host = one();
  stores.push(await openTrace(host));
  press('Seal this sheet');
  expect(await screen.findByText('Nothing was sealed: say who seals.')).toBeTruthy();
  expect(host.calls.some((call) => call.startsWith('editNames'))).toBe(false);
});

it('seals the sheet in front and compares what the workbook now holds', async () => {
  const host = one();
  await sealed(host);
  expect(screen.getByText('The seal holds: everything is as it was sealed.')).toBeTruthy();
  expect(screen.getByText(/A\. Nobody, .* UTC, seal 1/)).toBeTruthy();
  expect(host.sheets.get(host.active)!.book.names.some(({ name }) => name === 'LightSeal')).toBe(true);
  expect(host.names.map(({ name }) => name).sort()).toEqual(['LightBook', 'LightSealRegister']);
});

it('says what a seal shows and what it does not', async () => {
  stores.push(await openTrace(one()));
  const statement = screen.getByText('What a seal shows, and what it does not').closest('details')!;
  expect(statement.textContent).toContain('It does not show that the readings were ever seen on a meter');
});

it('names each thing that differs, and goes there', async () => {
  const host = one();
  await sealed(host);
  const at = placeOf(host, 'AmbientReadings').split(':')[0]!;
  host.put(host.active, 'AmbientReadings', [[3]]);
  host.edit(host.active, () => ({ isProtected: false }));
  press('Compare with its seal');
  expect(await screen.findByText('The seal is broken.')).toBeTruthy();
  const items = within(screen.getByRole('list', { name: 'Differences' })).getAllByRole('listitem');
  expect(items.map((item) => item.textContent)).toEqual([
    expect.stringContaining(`Cell ${at} changed`),
    expect.stringContaining('Sheet protection changed'),
  ]);
  fireEvent.click(within(items[0]!).getByRole('button', { name: `Go to ${at}` }));
  await waitFor(() => expect(host.selected).toEqual([`${host.active}!${at}`]));
});

it('finds a rule that was taken away', async () => {
  const host = one();
  await sealed(host);
  host.edit(host.active, ({ validations }) => ({ validations: validations.slice(1) }));
  press('Compare with its seal');
  expect(await screen.findByText('The seal is broken.')).toBeTruthy();
  expect(screen.getAllByText(/^Input rule of/).length).toBeGreaterThan(0);
});

it('is opened with a name and a reason, which stay in its history', async () => {
  const host = one();
  await sealed(host);
  press('Take the seal off');
  expect(await screen.findByText('Nothing was opened: say who opens it, and why.')).toBeTruthy();
  type('Why it is opened', 'Range factor was wrong');
  press('Take the seal off');
  expect(await screen.findByText(/is open again; who, when and why are kept with it/)).toBeTruthy();
  expect(screen.getByText('Not sealed.')).toBeTruthy();
  expect(screen.getByText(/^reopened .* by A\. Nobody: Range factor was wrong$/)).toBeTruthy();
  press('Seal this sheet');
  expect(await screen.findByText(/A\. Nobody, .* UTC, seal 2/)).toBeTruthy();
});

it('refuses to seal twice', async () => {
  await sealed(one());
  press('Seal this sheet');
  expect(await screen.findByText(/Nothing was sealed: .* is sealed already; reopen it first/)).toBeTruthy();
});

it('gives a copied sheet a mark of its own', async () => {
  const host = several(1, 2);
  const [first, second] = [...host.sheets.keys()];
  const mark = host.sheets.get(first!)!.book.names.find(({ hidden }) => hidden)!;
  host.edit(second!, ({ names }) => ({
    names: names.map((name) => (name.name === mark.name ? mark : name)),
  }));
  host.active = second!;
  await sealed(host);
  const own = host.sheets.get(second!)!.book.names.find(({ name }) => name === mark.name)!;
  expect(own.refersTo).toContain('mark1234');
});

it('cannot seal a sheet whose input rules it cannot read, and says what can', async () => {
  const host = one();
  host.edit(host.active, ({ names }) => ({
    names: names.map((name) => (name.name === 'LightSheet' ? { ...name, refersTo: '="run;999;a1"' } : name)),
  }));
  stores.push(await openTrace(host));
  type('Who seals or opens', 'A. Nobody');
  press('Seal this sheet');
  expect(await screen.findByText(/its input rules cannot be read/)).toBeTruthy();
  expect(screen.getByText(/use the command line/)).toBeTruthy();
  expect(host.calls.some((call) => call.startsWith('editNames'))).toBe(false);
});

it('seals a comparison, whose layout follows from the runs it is linked to', async () => {
  const host = await compared();
  host.active = 'Comparison';
  await sealed(host);
  expect(screen.getByText('The seal holds: everything is as it was sealed.')).toBeTruthy();
});

it('says what the host refuses, and claims no seal', async () => {
  const host = one();
  stores.push(await openTrace(host));
  type('Who seals or opens', 'A. Nobody');
  host.failNext('editNames', new HostError('protected', 'It has a password.', 'Lift it first.', 'x'));
  press('Seal this sheet');
  expect(await screen.findByText('It has a password.')).toBeTruthy();
  expect(screen.queryByText(/^Sealed “/)).toBeNull();
});
