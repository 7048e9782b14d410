import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { calculateBook } from '../../../src/audit/formula/calculate';
import type { CellValue } from '../../../src/sheets/book';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';

/*
 * What people come for, from the first click, clicks and keys counted and printed. The sheets calculate; readings are
 * put into their cells as if they were typed there. Names and figures are invented.
 */
configure({ asyncUtilTimeout: 30_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

class Person {
  clicks = 0;
  keys = 0;
  constructor(readonly host = new FakeHost()) {}

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
    console.log(`${use}: ${this.clicks} clicks, ${this.keys} keys`);
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
