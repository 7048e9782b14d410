import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { offersPlan } from '../../../src/sheets/offers';
import { App } from '../../../taskpane/app';
import { newRunOf } from '../../../taskpane/run/newrun';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { sure } from '../scenes';

/* A purchase whose figures are typed once; names and figures are invented. */

// Pages are fetched when they are first opened, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host: FakeHost): Promise<Store> {
  let ids = 0;
  const store = createStore(host, { today: '2026-11-25', makeId: () => `flow000${ids++}` });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('sheet');
  return store;
}
const press = async (name: string) => fireEvent.click(await screen.findByRole('button', { name }));
const field = (id: string) => document.getElementById(id) as HTMLInputElement;
const type = (id: string, value: string) => fireEvent.input(field(id), { target: { value } });

it('the offer chosen gives the limits of the lot, and the lot the serials of the batch, both linked', async () => {
  const host = new FakeHost();
  const { sheet: offers } = await host.build(
    offersPlan({ asked: {}, use: {}, offers: [{ bidder: 'North (invented)' }], spare: 2 }, 'offers1'),
  );
  host.put(offers, 'OfferState', [['meets']]);
  host.put(offers, 'ChosenOffer', [['North (invented)']]);
  host.put(offers, 'ChosenWhite', [[3000]]);
  host.put(offers, 'ChosenColour', [[2500]]);
  const store = await open(host);
  await press('Draw the sample of the delivery');
  await screen.findByRole('heading', { name: 'Sample of a lot' });
  // 80 % of what is stated, the lower limit that is usual.
  expect([field('accept-leastWhite').value, field('accept-leastColour').value]).toEqual(['2400', '2000']);
  expect(screen.getByText(/^80 % of what “North \(invented\)” states on “Offers”/)).toBeTruthy();
  type('accept-lot', 'Delivery 1 (invented)');
  type('accept-serials', Array.from({ length: 60 }, (_, i) => `BIB-${i + 1}`).join('\n'));
  type('accept-seed', '4 2 6 1');
  await press('Build the acceptance sheet');
  await screen.findByText(/with the draw recorded/);
  const lot = host.active;
  const reading = await host.read(lot);
  const { cells } = host.sheets.get(lot)!.book;
  expect(cells[reading.values.LeastWhite!.address]!.formula).toMatch(/0\.8\*.*'Offers'!/);
  await press('Make the batch of the units drawn');
  await screen.findByRole('heading', { name: 'New batch' });
  const serials = (field('batch-units') as unknown as HTMLTextAreaElement).value.split('\n');
  const drawn = reading.values.Serials!.values.flat().filter((_, i) => {
    return typeof reading.values.DrawPlaces!.values[i]![0] === 'number';
  });
  expect(serials).toHaveLength(20);
  expect(new Set(serials)).toEqual(new Set(drawn));
  expect(field('batch-title').value).toBe('Delivery 1 (invented)');
  expect(screen.getByText(/^The 20 units drawn on “Acceptance/)).toBeTruthy();
  newRunOf(store).form.type('projector', 'North type 1 (invented)');
  newRunOf(store).form.type('length', '1.6');
  await press('Build the batch sheet');
  await screen.findByText(/^Built the sheet “Batch/);
  const batch = await host.readNamed(host.active, ['RatedWhite', 'Serials']);
  const rated = host.sheets.get(host.active)!.book.cells[batch.RatedWhite!.address.split(':')[0]!];
  expect(rated!.formula).toContain("'Offers'!");
  expect(batch.Serials!.values.flat().filter(Boolean)).toEqual(serials);
});

it('the doubt is made smaller where it is explained: 4 typed there is 0.04 on the sheet', async () => {
  const host = await sure();
  await open(host);
  await screen.findByText(/^What would help most/);
  const own = screen.getByRole('group', { name: /what is known of it\?$/ }).querySelector('input')!;
  const name = own.id.replace('cause-', '');
  fireEvent.input(own, { target: { value: '4' } });
  await press('Put it on the sheet');
  await screen.findByText(/^On the sheet: /);
  const { values } = await host.read(host.active);
  await waitFor(() => expect(values[name as 'MeterOfReading']!.values[0]![0]).toBe(0.04));
});
