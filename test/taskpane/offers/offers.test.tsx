import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { defaultRoom, needPlan } from '../../../src/sheets/need';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { unfold } from '../unfold';

/* Bidders and figures are invented: a library network's reading rooms. */

// The step's code is fetched when it is opened, and a machine may be busy.
configure({ asyncUtilTimeout: 5000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host = new FakeHost()): Promise<FakeHost> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'offer001' });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('offers');
  await screen.findByRole('heading', { name: 'Asked for' });
  return host;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name, hidden: true }));
const field = (id: string) => document.getElementById(`offers-${id}`) as HTMLInputElement;
const type = (id: string, text: string) => {
  const input = field(id);
  fireEvent.input(input, { target: { value: text } });
  fireEvent.blur(input);
};

/** Five years of 1000 hours at 0.30 a kilowatt hour. */
function typeAsked(): void {
  type('white', '2910');
  type('colour', '2910');
  type('tariff', '0.30');
  type('currency', 'EUR');
}

/** 900 + 0.2 kW × 5000 h × 0.30 + 0 sources = 1200 by hand. */
function typeOffer(place = 1): void {
  type(`${place}-bidder`, 'North, type 1 (invented)');
  type(`${place}-white`, '3000');
  type(`${place}-colour`, '3000');
  type(`${place}-standard`, 'ISO/IEC 21118:2020');
  type(`${place}-price`, '900');
  type(`${place}-currency`, 'eur');
  type(`${place}-power`, '200 W');
  type(`${place}-sourceLife`, '5000 h');
  type(`${place}-warranty`, '3');
}

/** South falls short in colour; 650 + 0.25 × 5000 × 0.30 + 1 source of 120 = 1145 by hand. East states no colour. */
const CSV = [
  'Bidder,Rated white,Rated colour,Standard,Price,Currency,Power,Source life,Source price,Warranty',
  'South (invented),3200,1500,ISO/IEC 21118:2020,650,EUR,250,2500,120,2',
  'East (invented),3100,,,700,EUR,,,,',
  'West (invented),bright,3000,,710,EUR,,,,',
].join('\n');

async function buildNeed(host: FakeHost, white: number): Promise<void> {
  await host.build(needPlan({ rooms: [{ ...defaultRoom('Hall') }], spare: 1 }, 'need0001'));
  host.put('Need', 'LargestWhite', [[white]]);
  host.put('Need', 'LargestColour', [[white]]);
}

describe('the offers step', () => {
  it('judges an offer at once: state, margin, cost', async () => {
    await open();
    typeAsked();
    typeOffer();
    expect(await screen.findByText('\u2713 meets the need', { selector: 'strong' })).toBeTruthy();
    // 3000 ÷ 2910 − 1 = 3.1 %
    const words = screen.getByText(/Against the need/).textContent;
    expect(words).toContain('white +3.1 %, colour +3.1 %');
    expect(words).toContain('1200 eur a unit (price 900, energy 300, sources 0)');
    expect(screen.queryByText('To ask back')).toBeNull();
  });

  it('an empty field is a question', async () => {
    await open();
    typeAsked();
    type('1-bidder', 'East (invented)');
    type('1-white', '3100');
    expect(
      await screen.findByText('? not decided: figures are missing', { selector: 'strong' }),
    ).toBeTruthy();
    expect(screen.getByText(/Please state the colour light output in lumens/)).toBeTruthy();
    expect(screen.getByText(/No cost over the years yet/)).toBeTruthy();
  });

  it('takes the figures of a need sheet by itself, rounded up as the tender does', async () => {
    const host = new FakeHost();
    await buildNeed(host, 2909.09);
    await open(host);
    await waitFor(() => expect(field('white').value).toBe('2910'));
    expect(screen.getByText(/From “Need”, the largest need, rounded up/)).toBeTruthy();
  });

  it('a need that comes later does not overwrite what was typed, but can be taken', async () => {
    const host = await open();
    type('white', '2500');
    type('colour', '2000');
    await buildNeed(host, 3011);
    const take = await screen.findByRole('button', { name: /Take the figures of “Need”/ });
    await waitFor(() => expect(host.calls).toContain('read Need'));
    expect(field('white').value).toBe('2500');
    fireEvent.click(take);
    await waitFor(() => expect(field('white').value).toBe('3020'));
  });

  it('asks which decimal mark was meant', async () => {
    await open();
    type('1-price', '1,299');
    fireEvent.click(await screen.findByRole('button', { name: '1299', hidden: true }));
    await waitFor(() => expect(field('1-price').value).toBe('1299'));
    expect(screen.queryByText(/Which is it/)).toBeNull();
  });

  it('builds the sheet and shows how each line stands there', async () => {
    const host = await open();
    typeAsked();
    typeOffer();
    press(/^Build the offers sheet$/);
    expect(await screen.findByText('Built the sheet “Offers”.')).toBeTruthy();
    const { values } = await host.read('Offers');
    expect(values.Bidders!.values[0]).toEqual(['North, type 1 (invented)']);
    expect(values.OfferPower!.values[0]).toEqual([200]);
    expect(values.AskedWhite!.values).toEqual([[2910]]);
    host.put('Offers', 'OfferState', [['short']]);
    host.put('Offers', 'OfferCost', [['ask']]);
    host.put('Offers', 'OfferQuestions', [['white light output; price; ']]);
    expect(await screen.findByText(/To ask back: white light output; price\./)).toBeTruthy();
    const card = screen.getByRole('region', { name: 'On the sheet' });
    expect(card.textContent).toContain('\u2717 falls short of the need');
    expect(card.textContent).toContain('figures are missing');
  });

  it('links the sheet to the need its figures are from, and no longer once they are typed', async () => {
    const host = new FakeHost();
    await buildNeed(host, 2909.09);
    await open(host);
    await waitFor(() => expect(field('white').value).toBe('2910'));
    type('tariff', '0.3');
    type('currency', 'EUR');
    typeOffer();
    const askedCell = async (sheet: string) => {
      const [book] = (await host.book({ sheets: [sheet] })).sheets;
      return book!.cells[(await host.read(sheet)).values.AskedWhite!.address]!;
    };
    press(/^Build the offers sheet$/);
    await screen.findByText('Built the sheet “Offers”.');
    const { address } = (await host.read('Need')).values.LargestWhite!;
    expect((await askedCell('Offers')).formula).toContain(
      `'Need'!${address.replace(/([A-Z]+)(\d+)/, '$$$1$$$2')}`,
    );
    stores.at(-1)!.open('offers');
    await waitFor(() => expect(field('white')).toBeTruthy());
    type('white', '2950');
    press(/^Build the offers sheet$/);
    await screen.findByText('Built the sheet “Offers 2”.');
    expect(await askedCell('Offers 2')).toMatchObject({ value: 2950 });
    expect((await askedCell('Offers 2')).formula).toBeUndefined();
  });

  it('chooses an offer of the sheet by its name', async () => {
    const host = await open();
    typeAsked();
    typeOffer();
    press(/^Build the offers sheet$/);
    await screen.findByText('Built the sheet “Offers”.');
    fireEvent.click(await screen.findByRole('button', { name: /^Choose North, type 1/ }));
    expect(
      await screen.findByText(/The chosen offer: linked run sheets take its rated figures/),
    ).toBeTruthy();
    expect((await host.read('Offers')).values.ChosenOffer!.values).toEqual([['North, type 1 (invented)']]);
  });

  it('builds nothing before need, plan and offers are fit', async () => {
    const host = await open();
    press(/^Build the offers sheet$/);
    expect(await screen.findByText(/what is asked for and the plan of use need another look/)).toBeTruthy();
    typeAsked();
    type('1-white', '3000');
    press(/^Build the offers sheet$/);
    expect(await screen.findByText(/some offers need another look/)).toBeTruthy();
    expect(screen.getByText('The offer needs a name.')).toBeTruthy();
    expect(host.sheets.size).toBe(0);
  });

  it('takes over what stands on a sheet', async () => {
    const host = await open();
    typeAsked();
    typeOffer();
    press(/^Build the offers sheet$/);
    await screen.findByText('Built the sheet “Offers”.');
    host.put('Offers', 'OfferPrice', [[1234.567]]);
    stores.at(-1)!.open('offers');
    await waitFor(() => press(/^Remove offer 1$/));
    await waitFor(() => expect(field('1-bidder').value).toBe(''));
    stores.at(-1)!.open('sheet');
    await screen.findByRole('region', { name: 'On the sheet' });
    await stores.at(-1)!.workbook.look();
    press(/^Take the offers back into the form$/);
    await waitFor(() => expect(field('1-bidder').value).toBe('North, type 1 (invented)'));
    expect(field('1-price').value).toBe('1234.5670');
  });
});

describe('the import', () => {
  it('shows rows and errors, and takes the clean rows', async () => {
    await open();
    typeAsked();
    type('paste', CSV);
    expect(await screen.findByText(/^Line 4, column “Rated white”: expected lumens above 0/)).toBeTruthy();
    expect(field('column-1').value).toBe('white');
    press(/^Import the 2 clean of 3 offers$/);
    expect(await screen.findByText('2 offers imported.')).toBeTruthy();
    expect(field('1-bidder').value).toBe('South (invented)');
    expect(screen.getByText(/1145 EUR a unit \(price 650, energy 375, sources 120\)/)).toBeTruthy();
    expect(screen.getByText('\u2717 falls short of the need', { selector: 'strong' })).toBeTruthy();
  });

  it('keeps the text until the sheet stands, and the lines that could not be read beyond it', async () => {
    await open();
    typeAsked();
    type('paste', CSV);
    fireEvent.click(
      await screen.findByRole('button', { name: /^Import the 2 clean of 3 offers$/, hidden: true }),
    );
    await screen.findByText('2 offers imported.');
    expect(field('paste').value).toBe(CSV);
    expect(screen.getByText(/^2 offers of this text are in the list/)).toBeTruthy();
    // What is in the list already is not offered again, also while the bad line is corrected.
    expect(screen.getByRole('button', { name: 'Nothing more to import', hidden: true })).toBeTruthy();
    type('paste', CSV.replace('bright', '3000'));
    expect(await screen.findByRole('button', { name: 'Import 1 offer', hidden: true })).toBeTruthy();
    type('paste', CSV);
    press(/^Build the offers sheet$/);
    await screen.findByText(/^Built the sheet “Offers”\./);
    // The line that could not be read is told of on the sheet's page too, and waits in the form.
    expect(screen.getByText(/One line of the text could not be read and stays in the form/)).toBeTruthy();
    stores.at(-1)!.open('offers');
    await waitFor(() => expect(field('paste')).toBeTruthy());
    const lines = CSV.split(/\r?\n/);
    await waitFor(() => expect(field('paste').value.split('\n')).toEqual([lines[0], lines[3]]));
    expect(screen.getByText(/^Line 2, column “Rated white”/)).toBeTruthy();
  });

  it('takes none if that is chosen', async () => {
    await open();
    type('paste', CSV);
    await screen.findByText(/^Line 4/);
    press(/^Import none$/);
    expect(await screen.findByText('Nothing was imported.')).toBeTruthy();
    expect(field('1-bidder').value).toBe('');
    expect(field('paste').value).toBe('');
  });

  it('asks about the decimal mark before anything can be taken', async () => {
    await open();
    type('paste', 'Bidder;Price\nNorth;1.299');
    await screen.findByText(/“1.299” in line 2 can mean 1.299 or 1299/);
    const take = screen.getByRole('button', { name: 'Nothing to import yet', hidden: true });
    expect(take.getAttribute('aria-disabled')).toBe('true');
    press(/^1299: the comma/);
    fireEvent.click(await screen.findByRole('button', { name: 'Import 1 offer', hidden: true }));
    await waitFor(() => expect(field('1-price').value).toBe('1299'));
  });

  it('columns can be named by hand, with or without headings', async () => {
    await open();
    type('paste', 'North,3000\nSouth,3100');
    expect(await screen.findByText(/Say which column names the bidder/)).toBeTruthy();
    fireEvent.change(field('column-0'), { target: { value: 'bidder' } });
    fireEvent.change(field('column-1'), { target: { value: 'white' } });
    expect(await screen.findByRole('button', { name: 'Import 2 offers', hidden: true })).toBeTruthy();
    fireEvent.click(field('headings'));
    expect(await screen.findByRole('button', { name: 'Import 1 offer', hidden: true })).toBeTruthy();
  });

  it('reads a file, also in the letters of western Windows', async () => {
    await open();
    const bytes = Uint8Array.from([...'Bidder,White\nB\u00fcro (invented),3000'].map((c) => c.charCodeAt(0)));
    const file = new File([bytes], 'offers.csv', { type: 'text/csv' });
    fireEvent.change(field('file'), { target: { files: [file] } });
    expect(await screen.findByText(/Read “offers.csv”.*western Windows/)).toBeTruthy();
    expect(screen.getByRole('cell', { name: 'B\u00fcro (invented)', hidden: true })).toBeTruthy();
  });

  it('what was exported can be imported', async () => {
    await open();
    typeOffer();
    await waitFor(() => expect(field('csv').value).toContain('North'));
    const { value } = field('csv');
    expect(value.split('\r\n')[1] ?? value.split('\n')[1]).toBe(
      '"North, type 1 (invented)",3000,3000,ISO/IEC 21118:2020,900,eur,200,5000,,3',
    );
    type('paste', value);
    fireEvent.click(await screen.findByRole('button', { name: 'Import 1 offer', hidden: true }));
    await waitFor(() => expect(field('2-bidder').value).toBe('North, type 1 (invented)'));
  });

  it('has no accessibility fault', async () => {
    const host = new FakeHost();
    await buildNeed(host, 2909.09);
    await open(host);
    typeAsked();
    typeOffer();
    press(/^Build the offers sheet$/);
    await screen.findByText('Built the sheet “Offers”.');
    stores.at(-1)!.open('offers');
    await waitFor(() => expect(field('paste')).toBeTruthy());
    type('paste', `${CSV}\nNorth,3000,3000,,1.234,EUR`);
    await screen.findByText(/^Line 4/);
    await unfold();
    const { violations } = await axe.run(document.body, { rules: { 'color-contrast': { enabled: false } } });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    expect(within(document.body).getAllByRole('table').length).toBeGreaterThan(0);
  });
});
