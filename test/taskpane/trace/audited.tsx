import { configure, render, screen } from '@testing-library/preact';
import { viewOf } from '../../../src/audit/view';
import type { HostFacts } from '../../../src/excel/host';
import type { BookSheet } from '../../../src/sheets/book';
import { App } from '../../../taskpane/app';
import { createStore, type Store, type StoreOptions } from '../../../taskpane/store';
import { measured, smallest } from '../../audit/sheets';
import { FakeHost } from '../fakehost';

// Whole sheets are checked and hashed here, beside other tests.
configure({ asyncUtilTimeout: 15_000 });

/** A host with sheets that are filled in and calculated. */
export function hostWith(sheets: readonly BookSheet[], facts: Partial<HostFacts> = {}): FakeHost {
  const host = new FakeHost(facts);
  for (const sheet of sheets) host.sheets.set(sheet.name, { book: sheet, changed: new Map() });
  host.active = sheets[0]?.name ?? 'Sheet1';
  return host;
}

/** The smallest run sheet, and one or more others. */
export const one = () => hostWith(smallest().sheets);
export const several = (...seeds: number[]) => hostWith(measured(...seeds).sheets);

export function placeOf(host: FakeHost, name: string, sheet = host.active): string {
  return viewOf(host.sheets.get(sheet)!.book).places.get(name.toLowerCase())!.address;
}

/** The pane with the step open. */
export async function openTrace(host: FakeHost, options: StoreOptions = {}): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'mark1234', ...options });
  render(<App store={store} />);
  await store.start();
  store.open('audit');
  // The step's code is fetched now, which takes a while the first time.
  await screen.findByRole('heading', { name: 'Where a number comes from' }, { timeout: 20_000 });
  return store;
}
