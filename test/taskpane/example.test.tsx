import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { HostError } from '../../src/excel/host';
import { exampleSteps } from '../../src/sheets/example';
import { runPlan } from '../../src/sheets/run';
import { App } from '../../taskpane/app';
import { createStore, type Store } from '../../taskpane/store';
import { FakeHost } from './fakehost';
import { SETUP } from './scenes';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host: FakeHost): Promise<Store> {
  let ids = 0;
  const store = createStore(host, { today: '2026-11-25', makeId: () => `id${ids++}` });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  return store;
}
const button = (name: string) => screen.getByRole('button', { name });
const STEPS = exampleSteps().length;

it('an empty workbook is offered the example first; one click builds all its sheets, marked as invented', async () => {
  const host = new FakeHost();
  await open(host);
  expect(screen.getByRole('heading', { level: 2, name: 'A ready example' })).toBeTruthy();
  expect(screen.queryByText(/their data are invented/)).toBeNull();
  fireEvent.click(button('Open the example'));
  expect(await screen.findByText(/^Sheet \d+ of \d+: /)).toBeTruthy();
  // As many as Home counts: the list of them is not on the list.
  const words = new RegExp(`^Built ${STEPS - 1} sheets and an overview of them`);
  expect(await screen.findByText(words, {}, { timeout: 20_000 })).toBeTruthy();
  const own = [...host.sheets].filter(([name]) => name !== 'Log');
  expect(own).toHaveLength(STEPS);
  for (const [name, { book }] of own)
    expect(String(book.cells.A1?.value), name).toMatch(/^Invented example\. /);
  expect(await screen.findByText('Example sheets in this workbook: their data are invented.')).toBeTruthy();
  expect(host.selected.at(-1)).toBe('Need!A6');
}, 30_000);

it('a workbook with sheets of ours is not offered it', async () => {
  const host = new FakeHost();
  await host.build(runPlan(SETUP, 'r1'));
  await open(host);
  expect(screen.queryByText('A ready example')).toBeNull();
});

it('stops after the sheet that is being built, and says what is there', async () => {
  const host = new FakeHost();
  await open(host);
  fireEvent.click(button('Open the example'));
  await screen.findByText(/^Sheet 2 of/, {}, { timeout: 10_000 });
  fireEvent.click(button('Stop'));
  const said = await screen.findByText(/^Stopped after \d+ of/, {}, { timeout: 10_000 });
  const count = Number(/after (\d+)/.exec(said.textContent!)![1]);
  expect(count).toBeLessThan(STEPS);
  expect([...host.sheets.keys()].filter((name) => name !== 'Log')).toHaveLength(count);
}, 20_000);

it('says so if the host refuses, and offers it again only in an empty workbook', async () => {
  const host = new FakeHost();
  await open(host);
  host.failNext('build', new HostError('protected', 'The workbook is protected.', 'Lift the protection.'));
  fireEvent.click(button('Open the example'));
  expect(await screen.findByText('The workbook is protected.')).toBeTruthy();
  await waitFor(() => expect(button('Open the example')).toBeTruthy());
  expect(host.sheets.size).toBe(0);
});
