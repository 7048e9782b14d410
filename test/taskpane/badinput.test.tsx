import { cleanup, configure, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import { runPlan } from '../../src/sheets/run';
import { App } from '../../taskpane/app';
import { newRunOf } from '../../taskpane/run/newrun';
import { pasteOf } from '../../taskpane/run/paste';
import { createStore, type Store } from '../../taskpane/store';
import { FakeHost } from './fakehost';
import { complete, putResult, runHost, SETUP } from './scenes';

/*
 * Every kind of bad input that the project promises an answer to, one after the other, as a person meets it in
 * the pane: on the sheet, in a pasted block, in the form. What the custom functions answer is tested beside them.
 */

// What says so is fetched when it is needed, and a machine may be busy.
configure({ asyncUtilTimeout: 10_000 });

const stores: Store[] = [];
async function open(host: FakeHost, page = host.sheets.size > 0 ? 'sheet' : 'run'): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'newrun01' });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open(page);
  await screen.findByRole('heading', { name: page === 'run' ? 'New run' : 'Results' });
  return store;
}
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const GOOD = ['248', '251', '249', '255', '262', '257', '246', '250', '247'];
const withSecond = (cell: string) => GOOD.map((good, i) => (i === 1 ? cell : good)).join('\n');
function pasteWhite(store: Store, text: string): void {
  pasteOf(store).choose('WhiteReadings');
  pasteOf(store).type(text);
}
const visible = () => document.getElementById('pane')?.textContent ?? document.body.textContent ?? '';

describe('blank, text or an error cell in a reading grid', () => {
  const onSheet = async (value: CellValue) => {
    const host = await complete();
    host.put(host.active, 'RedReadings', [[80, value === null ? '' : value]]);
    await open(host);
  };
  it.each([
    ['blank', null, /missing: top centre \(point 2\)/],
    [
      'text',
      'hello',
      /The red reading at top centre \(point 2\) must be the number on the display; it is "hello"/,
    ],
    [
      'error cell',
      { error: '#REF!' } as const,
      /red reading at top centre \(point 2\).*holds the error #REF!/,
    ],
  ])('%s on the sheet: named, and white light output still stands', async (_, value, words) => {
    await onSheet(value);
    expect(visible()).toMatch(words);
    expect(screen.getByText(/2604\.2/, { selector: '.big' })).toBeTruthy();
  });
  it.each(['abc', '#N/A', '#DIV/0!', '12 34'])(
    '%s in a pasted block: refused with its place',
    async (cell) => {
      const store = await open(await runHost());
      pasteWhite(store, withSecond(cell));
      expect(pasteOf(store).pasted.value?.problems[0]).toContain(
        'Row 1, column 2, white reading at top centre (point 2)',
      );
      expect(pasteOf(store).isReady.value).toBe(false);
    },
  );
});

describe('negative, infinite or absurd', () => {
  it.each(['-5', '\u22125', '1e99', '200001', '900 000'])('%s in a pasted block is refused', async (cell) => {
    const store = await open(await runHost());
    pasteWhite(store, withSecond(cell));
    expect(pasteOf(store).pasted.value?.problems).toHaveLength(1);
    await pasteOf(store).write();
    expect(store.run.value?.done).toBe(0);
  });
  it('on the sheet is named', async () => {
    const host = await complete();
    host.put(host.active, 'RedReadings', [[-4]]);
    await open(host);
    expect(visible()).toContain('The red reading at top left (point 1) must not be negative; it is -4.');
  });
});

describe('ambient above a reading', () => {
  it('is shown in the sheet\u2019s own words', async () => {
    const host = await complete();
    putResult(
      host,
      'WhiteRemarks',
      'Ambient exceeds the reading at point 3 (top right, white): 10 lx read, 12 lx ambient.',
    );
    putResult(host, 'WhiteLightOutput', {
      error: '#VALUE!',
      message: 'Ambient exceeds the reading at point 3.',
    });
    await open(host);
    expect(visible()).toContain('Ambient exceeds the reading at point 3 (top right, white)');
  });
});

describe('an image without area, an aspect of 0', () => {
  it.each([
    ['0', '16:10', 'it must be at least 0.1 and at most 60; it is 0'],
    ['', '16:10', 'Length is needed.'],
    ['1.6', '0:9', 'Aspect must be one of'],
    ['1.6', '16', 'Aspect must be one of'],
    ['-1.6', '16:10', 'it must be at least 0.1'],
  ])('length %j, aspect %j: an error at the field, no sheet', async (length, aspect, words) => {
    const host = new FakeHost();
    const store = await open(host);
    newRunOf(store).form.type('projector', 'Branch 7');
    newRunOf(store).form.type('length', length);
    newRunOf(store).form.type('aspect', aspect);
    fireEvent.click(screen.getByRole('button', { name: 'Build the run sheet' }));
    expect(await screen.findByText((text) => text.includes(words))).toBeTruthy();
    expect(host.sheets.size).toBe(0);
  });
});

describe('a grid of another shape', () => {
  it('is refused with both shapes', async () => {
    const store = await open(await runHost());
    pasteWhite(store, '1\t2\t3\t4\n5\t6\t7\t8\n9\t10\t11\t12');
    expect(pasteOf(store).pasted.value?.problems[0]).toMatch(/3 \u00d7 3 readings.*3 rows and 4 columns/);
  });
});

describe('decimal comma, thousands, a unit typed with the number', () => {
  it.each([
    ['1 234,5 lx', 1234.5],
    ['1.234,5', 1234.5],
    ["1'234.5", 1234.5],
    ['251,5', 251.5],
  ])('%s is understood', async (cell, value) => {
    const host = await runHost();
    const store = await open(host);
    pasteWhite(store, withSecond(cell));
    await pasteOf(store).write();
    expect(store.workbook.reading.value?.values.WhiteReadings?.values[0]?.[1]).toBe(value);
  });
  it.each(['1.234', '1,234', '1,234 lx'])(
    '%s is asked about, and nothing is written before',
    async (cell) => {
      const host = await runHost();
      const store = await open(host);
      pasteWhite(store, withSecond(cell));
      await pasteOf(store).write();
      expect(host.calls.some((call) => call.startsWith('write'))).toBe(false);
      expect(pasteOf(store).pasted.value?.questions[0]?.answers).toHaveLength(2);
      fireEvent.click(await screen.findByRole('button', { name: /^1234: /, hidden: true }));
      await pasteOf(store).write();
      expect(store.workbook.reading.value?.values.WhiteReadings?.values[0]?.[1]).toBe(1234);
    },
  );
  it('another unit than the meter\u2019s is refused, not converted', async () => {
    const store = await open(await runHost({ meter: { ...SETUP.meter, unit: 'fc' } }));
    pasteWhite(store, withSecond('251 lx'));
    expect(pasteOf(store).pasted.value?.problems[0]).toContain('expected fc');
  });
});

describe('other people and other sheets', () => {
  it('a taken name gets a number and leaves the first sheet alone', async () => {
    const host = await complete();
    const first = host.active;
    const before = await host.read(first);
    await host.build(runPlan(SETUP, 'second22'));
    await open(host);
    expect(host.active).not.toBe(first);
    expect(await host.read(first)).toEqual(before);
  });
  it.each([
    ['protected', 'The sheet is protected.'],
    ['missing', 'The sheet is not there any more.'],
    ['editing', 'A cell is being edited.'],
    ['busy', 'The spreadsheet is busy.'],
  ] as const)('%s: says what is in the way and what to do', async (trouble, message) => {
    const host = await complete();
    const store = await open(host);
    host.failNext('refresh', new HostError(trouble, message, 'Do this.', 'Code'));
    await store.refresh();
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toContain(`${message}Do this.`);
  });
  it('a run deleted while it is shown makes room for another', async () => {
    const host = await complete();
    const store = await open(host);
    host.remove(host.active);
    await store.workbook.look();
    expect(await screen.findByText(/Nothing is measured in this workbook yet/)).toBeTruthy();
  });
});
