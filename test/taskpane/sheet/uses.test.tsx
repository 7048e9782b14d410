import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { calculateBook } from '../../../src/audit/formula/calculate';
import type { CellValue } from '../../../src/sheets/book';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';

/*
 * What people come for, from the first click: clicks, keys and the seconds that the machine took, printed. The sheets calculate; readings are
 * put into their cells as if they were typed there. Names and figures are invented.
 */
configure({ asyncUtilTimeout: 30_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

/** What is gone to comes to the front, as in Excel. */
class Program extends FakeHost {
  override async select(sheet: string, target: string): Promise<void> {
    await super.select(sheet, target);
    this.activate(sheet);
  }
}

class Person {
  clicks = 0;
  keys = 0;
  readonly #began = performance.now();
  constructor(readonly host = new Program()) {}

  async begin(): Promise<void> {
    cleanup();
    const store = createStore(this.host, { today: '2026-11-25' });
    stores.push(store);
    render(<App store={store} />);
    await store.start();
  }
  async press(name: string | RegExp): Promise<void> {
    const button = await screen.findByRole('button', { name });
    this.clicks++;
    fireEvent.click(button);
  }
  async type(label: RegExp, text: string): Promise<void> {
    const field = await screen.findByLabelText(label);
    this.keys += text.length + 1;
    fireEvent.input(field, { target: { value: text } });
  }
  async choose(label: RegExp, value: string): Promise<void> {
    const field = await screen.findByLabelText(label);
    this.clicks++;
    fireEvent.change(field, { target: { value } });
  }
  /** A reading into the capture, with Enter. */
  enter(text: string): void {
    const field = document.getElementById('reading') as HTMLInputElement;
    this.keys += text.length + 1;
    fireEvent.input(field, { target: { value: text } });
    fireEvent.keyDown(field, { key: 'Enter' });
  }
  /** Readings into the cells of a name, an Enter behind each; then the program calculates. */
  read(name: string, values: readonly (readonly CellValue[])[]): void {
    this.keys += values.flat().reduce<number>((sum, value) => sum + String(value ?? '').length + 1, 0);
    this.host.put(this.host.active, name, values);
    this.calculate();
  }
  calculate(): void {
    const held = [...this.host.sheets.values()];
    const books = held.map(({ book, changed }) => {
      const cells = { ...book.cells };
      for (const [at, { value }] of changed) cells[at] = { ...cells[at]!, value };
      return { ...book, cells };
    });
    calculateBook({ sheets: books, names: [] }).sheets.forEach((sheet, i) => {
      held[i]!.book = sheet;
    });
    this.host.change();
  }
  told(use: string): void {
    const seconds = Math.round((performance.now() - this.#began) / 1000);
    console.log(`${use}: ${this.clicks} clicks, ${this.keys} keys, ${seconds} s`);
  }
}

const WHITE = [
  [1092, 1148, 1080],
  [1164, 1251, 1159],
  [1071, 1140, 1066],
];
const part = (of: number) => WHITE.map((row) => row.map((lux) => Math.round(lux * of)));

it('one projector: 36 readings in at most 10 clicks, with a ± that shrinks where it is explained; the next morning one click leads back', async () => {
  const person = new Person();
  await person.begin();
  await person.press('How bright is this projector?');
  await person.type(/^Projector/, 'Unit A (invented)');
  await person.type(/^Length/, '1.92');
  await person.press('Build the run sheet');
  await screen.findByText(/^Built the sheet “Run Unit A/);
  person.read('AmbientReadings', [[2]]);
  person.read('WhiteReadings', WHITE);
  // Before the colours are there, the next morning: one click to where one was.
  const morning = new Person(person.host);
  await morning.begin();
  await morning.press(/^Go on with “Run Unit A \(invented\)”: \d+ of \d+ are there$/);
  await screen.findByRole('heading', { name: 'Run Unit A (invented)' });
  morning.told('The next morning');
  expect(morning.clicks).toBe(1);
  person.read('RedReadings', part(0.075));
  person.read('GreenReadings', part(0.248));
  person.read('BlueReadings', part(0.026));
  person.read('LastReading', [[1250]]);
  const figure = await waitFor(() => {
    const found = screen.getByText('White light output').parentElement!.textContent!;
    expect(found).toMatch(/\(\d+ ± \d+\) lm/);
    return found;
  });
  const doubt = (text: string) => Number(/± (\d+)/.exec(text)![1]);
  await screen.findByText(/^What would help most/);
  await person.type(/^Meter, ± of reading/, '1');
  await person.press('Put it on the sheet');
  await screen.findByText(/^On the sheet: /);
  person.calculate();
  await waitFor(() =>
    expect(doubt(screen.getByText('White light output').parentElement!.textContent!)).toBeLessThan(
      doubt(figure),
    ),
  );
  person.told('One projector');
  expect(person.clicks).toBeLessThanOrEqual(10);
});

it('two projectors, eight readings: which is brighter stands in the pane', async () => {
  const person = new Person();
  await person.begin();
  await person.press('Which of several is brighter?');
  await person.type(/^Units, one a line/, 'Unit A\nUnit B');
  await person.press('Build the spot check');
  await screen.findByText(/^Built the sheet/);
  person.read('AmbientReadings', [[1]]);
  const fields = { White: [1101, 881], Red: [76, 61], Green: [251, 201], Blue: [26, 21] };
  for (const [field, values] of Object.entries(fields))
    person.read(
      `${field}Readings`,
      values.map((value) => [value]),
    );
  // (881 − 1) ÷ (1101 − 1) by hand.
  await waitFor(() => expect(document.querySelector('main')!.textContent).toMatch(/Unit B.*80(\.0)? %/s));
  person.told('Two projectors');
  expect(person.clicks).toBe(2);
});

const textOf = () => document.querySelector('main')!.textContent!;
const typedIn = (id: string) =>
  (document.getElementById(id) as HTMLInputElement | HTMLTextAreaElement | null)?.value;

async function newRun(): Promise<Person> {
  const person = new Person();
  await person.begin();
  await person.press('How bright is this projector?');
  await person.type(/^Projector/, 'Unit A (invented)');
  await person.type(/^Length/, '1.92');
  await person.press('Build the run sheet');
  await screen.findByText(/^Built the sheet “Run Unit A/);
  person.calculate();
  return person;
}

/** What Tab stops at in the document's order, what is folded left out. */
function stops(): HTMLElement[] {
  const all = document.querySelectorAll<HTMLElement>(
    'button:enabled, input, select, textarea, [tabindex="0"]',
  );
  return [...all].filter((element) => {
    const fold = element.parentElement?.closest('details:not([open])');
    return !fold || (element.tagName === 'SUMMARY' && element.parentElement === fold);
  });
}

it('one projector, guided, by keyboard: a few Tabs to the first reading, and lumens at the end', async () => {
  const person = await newRun();
  await waitFor(() => expect(document.activeElement?.textContent).toMatch(/^Built the sheet/));
  await person.press('I have read this');
  const start = document.activeElement!;
  expect(start.id).toBe('capture-title');
  const button = await screen.findByRole('button', { name: 'Take them here' });
  const between = stops().filter(
    (element) =>
      start.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_FOLLOWING &&
      button.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING,
  );
  expect(between.length).toBeLessThanOrEqual(3);
  await person.press('Take them here');
  await person.press('Begin reading');
  await waitFor(() => expect(document.activeElement?.id).toBe('reading'));
  const typed = { Ambient: '2', Red: '82', Green: '271', Blue: '28', Black: '3', White: '1100' };
  for (let left = 47; left > 0; left--) {
    await waitFor(() => expect(textOf()).toContain(`${left} of 47 left`));
    const asked = screen
      .getAllByRole('status')
      .map(({ textContent }) => textContent)
      .join(' ');
    const field = /(Ambient|Red|Green|Blue|Black|[Ww]hite), (?:reading|point) \d/.exec(asked)?.[1] ?? 'White';
    person.enter(typed[field as keyof typeof typed] ?? typed.White);
  }
  await waitFor(() => expect(textOf()).toContain('All readings are taken'));
  person.calculate();
  await waitFor(() => expect(textOf()).toMatch(/White light output\(\d+ ± \d+\) lm/));
  person.told('One projector, guided');
  expect(person.clicks).toBeLessThanOrEqual(10);
});

it('36 readings pasted: what is still missing is said where the result will stand', async () => {
  const person = await newRun();
  const fields = [1, 0.075, 0.248, 0.026].map((of) => part(of).map((row) => row.join('\t')));
  person.clicks++; // The fold of the card.
  await person.type(/^Readings$/, fields.flat().join('\n'));
  await person.press('Write 36 readings');
  await waitFor(() => expect(textOf()).toContain('36 of 36 readings'));
  person.calculate();
  await screen.findAllByText('Waits for the ambient reading, which is taken off every other one.');
  // Two fields have too few digits; it is said once, with their names.
  await screen.findByText(/^Red, blue: Fewer than three significant digits/);
  person.told('36 readings pasted');
  expect(person.clicks).toBeLessThanOrEqual(4);
});

it('a purchase, from rooms to the certificate, by the next thing of each sheet; then a template of it', async () => {
  const person = new Person();
  await person.begin();
  await person.press('How much light do we need?');
  await person.type(/^Name of the room/, 'Reading room (invented)');
  await person.type(/^Image width/, '1.6');
  await person.type(/^Image height/, '1');
  await person.type(/^Room light/, '20');
  await person.press('Build the need sheet');
  await screen.findByText(/^Built the sheet “Need”/);
  person.calculate();
  await person.press('List the offers against this need');
  await screen.findByText(/^From “Need”, the largest need/);
  expect([typedIn('offers-white'), typedIn('offers-colour')]).toEqual(['800', '800']);
  await person.type(/^Bidder and offer/, 'North (invented)');
  await person.type(/^Rated white/, '2300');
  await person.type(/^Rated colour/, '1800');
  await person.type(/^Price of one unit/, '900');
  await person.type(/^Currency$/, 'EUR');
  expect(typedIn('offers-currency')).toBe('EUR');
  await person.type(/^Price of a kilowatt/, '0.3');
  await person.press('Build the offers sheet');
  await screen.findByText(/^Built the sheet “Offers”/);
  person.calculate();
  await person.press('Choose North (invented)');
  await screen.findByText(/^✓ The chosen offer/);
  person.calculate();
  await person.press('Draw the sample of the delivery');
  await screen.findByText(/^80 % of what “North \(invented\)” states/);
  expect([typedIn('accept-leastWhite'), typedIn('accept-leastColour')]).toEqual(['1840', '1440']);
  await person.type(/^Lot/, 'Delivery 1');
  await person.type(/^Serial/, Array.from({ length: 8 }, (_, i) => `N-${i + 1}`).join('\n'));
  await person.type(/^Seed/, '4 2 6 1');
  await person.press('Build the acceptance sheet');
  await screen.findByText(/with the draw recorded/);
  person.calculate();
  await person.press('Make the batch of the units drawn');
  await screen.findByText(/The image is that of the room on “Need”/);
  const units = typedIn('batch-units')!.split('\n');
  // ISO 2859-1, level II: letter A for 2 to 8 units, and AQL 2.5 leads on to letter C, five units.
  expect(units).toHaveLength(5);
  expect(['batch-title', 'field-projector', 'field-width', 'field-height'].map(typedIn)).toEqual([
    'Delivery 1',
    'North (invented)',
    '1.6',
    '1',
  ]);
  await person.choose(/^What is read/, 'nine points in each colour');
  await person.press('Build the batch sheet');
  await screen.findByText(/^Built the sheet “Batch Delivery 1”/);
  const grid = (lux: number) =>
    units.map((_, i) => Array.from({ length: 9 }, () => (i === 1 ? Math.round(lux / 2) : lux)));
  person.read('AmbientReadings', [[2]]);
  for (const [field, lux] of Object.entries({ White: 1400, Red: 300, Green: 700, Blue: 200 }))
    person.read(`${field}Readings`, grid(lux));
  await person.press(/^Link the results into “Acceptance Delivery 1/);
  await screen.findByText(/^5 units linked into/);
  person.calculate();
  await person.press(`Open ${units[1]} as a run`);
  await screen.findByText(/Its readings so far are there/);
  person.read('LastReading', [[700]]);
  const run = person.host.active;
  await person.press('Make the certificate');
  await person.press(`Certificate of “${run}”`);
  await screen.findByText(/^Built the sheet “Certificate/);
  person.told('A purchase');
  expect(person.clicks).toBeLessThanOrEqual(15);

  const next = new Person(person.host);
  await next.begin();
  await next.press('More');
  await next.press('Templates');
  await next.press('Take everything from the sheets of this workbook');
  const taken = await screen.findByText(/^Taken: /);
  for (const part of [
    'the rooms of “Need”',
    'the currency of “Offers”',
    'the meter, its doubt',
    'the sample plan',
  ])
    expect(taken.textContent).toContain(part);
  await next.type(/^Title/, 'Next bid (invented)');
  await next.press('Save the template');
  await screen.findByText(/Next bid \(invented\)/);
  next.told('A template of it');
  expect(next.clicks).toBeLessThanOrEqual(5);
  // A lot that is rejected leads to the run of its failing unit, now that there is one.
  person.host.activate('Acceptance Delivery 1');
  const later = new Person(person.host);
  await later.begin();
  await later.press('This sheet');
  await screen.findByRole('button', { name: `Go to “${run}”, the run of ${units[1]}` });
});

it('an audit: yes or no for the whole workbook in one click, and no by the cell that was overtyped', async () => {
  const person = await newRun();
  person.read('AmbientReadings', [[2]]);
  person.read('WhiteReadings', WHITE);
  const sheet = person.host.active;
  const auditor = new Person(person.host);
  await auditor.begin();
  await auditor.press('Check all');
  await screen.findByText(/^Yes: everything is as built/);
  expect(auditor.clicks).toBe(1);
  const { cells } = person.host.sheets.get(sheet)!.book;
  const at = Object.keys(cells).find((one) => cells[one]!.formula?.includes('LIGHT.OUTPUT'))!;
  person.host.type(sheet, at, { value: 9999 });
  await auditor.press('Check the whole workbook');
  await screen.findByText(new RegExp(`^A constant stands in ${at} in place of its formula`));
  await screen.findByText(/^No: /);
  auditor.told('An audit');
});
