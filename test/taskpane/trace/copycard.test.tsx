import { cleanup, fireEvent, screen, waitFor } from '@testing-library/preact';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { COVER_TITLE } from '../../../src/audit/plain';
import type { HostFacts } from '../../../src/excel/host';
import { readXlsx, writeXlsx } from '../../../src/xlsx';
import type { Store } from '../../../taskpane/store';
import { smallest, withSheet } from '../../audit/sheets';
import type { FakeHost } from '../fakehost';
import { hostWith, openTrace } from './audited';

/* What is in the copy is held against LibreOffice beside the code that writes it; here it is the way to it. */
const stores: Store[] = [];
let saved: Blob[];
beforeEach(() => {
  saved = [];
  URL.createObjectURL = (blob: Blob) => {
    saved.push(blob);
    return 'blob:test';
  };
  URL.revokeObjectURL = () => {};
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => {});
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  for (const store of stores.splice(0)) store.stop();
});

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
async function opened(book = smallest(), facts: Partial<HostFacts> = {}): Promise<FakeHost> {
  const host = hostWith(book.sheets, facts);
  host.saved = await writeXlsx(book);
  stores.push(await openTrace(host));
  press('Make a plain copy');
  return host;
}

it('opens as a new workbook in a spreadsheet program, and the log knows of it', async () => {
  const host = await opened();
  expect(
    await screen.findByText(/^The copy is ready\. \d+ results of functions on 1 sheet stand as values/),
  ).toBeTruthy();
  expect(host.calls.filter((call) => /^(write|restore|editNames|build)/.test(call))).toEqual([]);
  press('Open it as a new workbook');
  expect(await screen.findByText(/^The copy was opened as a new workbook/)).toBeTruthy();
  const copy = await readXlsx(host.opened[0]!);
  expect(copy.sheets[0]!.name).toBe(COVER_TITLE);
  expect(Object.values(copy.sheets[1]!.cells).some(({ formula }) => formula?.includes('LIGHT.'))).toBe(false);
  await waitFor(() => expect(host.logged.map(({ what }) => what)).toEqual(['exported']));
});

it('is saved as a file beside the embedded spreadsheet, which opens no second workbook', async () => {
  await opened(smallest(), { isWorkbench: true });
  await screen.findByText(/^The copy is ready/);
  expect(screen.queryByRole('button', { name: 'Open it as a new workbook' })).toBeNull();
  press('Save it as a file');
  expect(saved.map(({ type }) => type)).toEqual([
    'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  ]);
  expect(screen.getByText(/^plain-copy\.xlsx was handed over .* Did the file appear\?$/)).toBeTruthy();
  press('No, nothing came');
  expect(screen.getByText(/Open the copy as a new workbook instead/)).toBeTruthy();
});

it('is not made while results are missing; what to do is said', async () => {
  const book = smallest();
  const missing = withSheet(book, 0, (sheet) => ({
    ...sheet,
    cells: Object.fromEntries(
      Object.entries(sheet.cells).map(([at, cell]) => [
        at,
        cell.formula?.includes('LIGHT.OUTPUT') ? { ...cell, value: { error: '#NAME?' as const } } : cell,
      ]),
    ),
  }));
  await opened(missing);
  expect(
    await screen.findByText(/1 result is not calculated, so there is nothing to keep of it/),
  ).toBeTruthy();
  expect(screen.getByText(/^Refresh the results/)).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Save it as a file' })).toBeNull();
});

it('says what a file that is no workbook is', async () => {
  const host = hostWith(smallest().sheets);
  host.saved = new Uint8Array([1, 2, 3]);
  stores.push(await openTrace(host));
  press('Make a plain copy');
  expect(await screen.findByText('The file is not an .xlsx workbook.')).toBeTruthy();
});
