import { cleanup, fireEvent, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import type { Store } from '../../../taskpane/store';
import type { FakeHost } from '../fakehost';
import { one, openTrace, placeOf, several } from './audited';

/*
 * A seal is compared without being asked as soon as its sheet is shown, and again when that sheet changes. Nothing is
 * asked of the program for sheets without one.
 */

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});
const books = (host: FakeHost) => host.calls.filter((call) => call.startsWith('book')).length;
const looked = (host: FakeHost) => host.calls.filter((call) => call === 'survey').length;

/** A sealed sheet in front, the pane at its first step. */
async function sealed(host: FakeHost): Promise<FakeHost> {
  const store = await openTrace(host);
  stores.push(store);
  const type = { target: { value: 'A. Nobody' } };
  fireEvent.input(screen.getByLabelText('Who seals or opens'), type);
  fireEvent.click(screen.getByRole('button', { name: 'Seal this sheet' }));
  await screen.findByText(/^Sealed “/);
  store.open('home');
  await screen.findByText(/is sealed and as it was sealed\.$/);
  return host;
}

it('says at once which cell of a sealed sheet has changed, and goes there', async () => {
  const host = await sealed(one());
  const at = placeOf(host, 'AmbientReadings').split(':')[0]!;
  host.put(host.active, 'AmbientReadings', [[3]]);
  const said = await screen.findByText(/is no longer as it was sealed\.$/);
  const notice = said.closest('[role=alert]')!;
  // The figure alone, since nothing but it was changed; what it was is in no seal.
  expect(notice.textContent).toMatch(
    new RegExp(`${at} was changed\\. Now it is 3; what it was, no seal can say`),
  );
  expect(notice.textContent).not.toMatch(/General|#1F2933|12 pt/);
  fireEvent.click(screen.getByRole('button', { name: `Go to ${at}` }));
  await waitFor(() => expect(host.selected).toEqual([`${host.active}!${at}`]));
  fireEvent.click(screen.getByRole('button', { name: 'Show everything that differs' }));
  expect(await screen.findByRole('list', { name: 'Differences' })).toBeTruthy();
});

it('calls a seal that does not hold so wherever the sheet is listed, and sealed again once it holds', async () => {
  const host = await sealed(one());
  const row = () => screen.getByRole('button', { name: /^Go to sheet/ }).closest('li')!;
  await waitFor(() => expect(row().textContent).toMatch(/\u2713 sealed/));
  const before = host.sheets.get(host.active)!.book.cells[placeOf(host, 'AmbientReadings').split(':')[0]!]!
    .value;
  host.put(host.active, 'AmbientReadings', [[3]]);
  await screen.findByText(/is no longer as it was sealed\.$/);
  await waitFor(() => expect(row().textContent).toMatch(/\u2717 .*its seal does not hold/));
  expect(row().textContent).not.toContain('\u2713');
  expect(row().querySelector('[data-tone=good]')).toBeNull();
  expect(screen.getByText(/1 with a seal that does not hold/)).toBeTruthy();
  fireEvent.click(screen.getByRole('button', { name: /^Go to sheet/ }));
  expect(await screen.findByText('it does not hold')).toBeTruthy();
  expect(screen.getByText(/; its seal does not hold$/).getAttribute('data-tone')).toBe('bad');
  host.put(host.active, 'AmbientReadings', [[before]]);
  await waitFor(() => expect(screen.queryByText(/its seal does not hold/)).toBeNull());
});

it('asks the program once for each change of that sheet, and not at all for others', async () => {
  const host = await sealed(several(1, 2));
  const [front, other] = [...host.sheets.keys()] as [string, string];
  const surveys = looked(host);
  let before = books(host);
  host.change([other]);
  await waitFor(() => expect(looked(host)).toBeGreaterThan(surveys));
  expect(books(host)).toBe(before);
  host.edit(front, () => ({ isProtected: false }));
  host.change([front]);
  await screen.findByText(/is no longer as it was sealed\.$/);
  expect(books(host)).toBe(before + 1);
  // In front of a sheet without a seal there is nothing to say, and nothing is asked.
  before = books(host);
  host.activate(other);
  await waitFor(() => expect(screen.queryByText(/as it was sealed\.$/)).toBeNull());
  host.put(other, 'WhiteReadings', [[3]]);
  await waitFor(() => expect(looked(host)).toBeGreaterThan(surveys + 2));
  expect(books(host)).toBe(before);
});

it('says why it could not compare; what was merely busy it asks again', async () => {
  const host = await sealed(one());
  const before = books(host);
  host.failNext('book', new HostError('busy', 'It is busy.', 'Wait.'));
  host.failNext('book', new HostError('unknown', 'It would not say.', 'Try again.'));
  host.change([host.active]);
  expect(await screen.findByText(/could not be compared: It would not say\./)).toBeTruthy();
  expect(books(host)).toBe(before + 2);
  host.change([host.active]);
  expect(await screen.findByText(/is sealed and as it was sealed\.$/)).toBeTruthy();
});
