import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { calculateBook } from '../../../src/audit/formula/calculate';
import { HostError } from '../../../src/excel/host';
import { ageingPlan } from '../../../src/sheets/ageing';
import { defaultAgeing } from '../../../src/sheets/ageing/setup';
import { bookOf } from '../../../src/sheets/realize';
import type { Store } from '../../../taskpane/store';
import { smallRun } from '../../audit/examples';
import { smallest } from '../../audit/sheets';
import type { FakeHost } from '../fakehost';
import { hostWith, one, openTrace, placeOf } from './audited';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  for (const store of stores.splice(0)) store.stop();
});

async function traced(host: FakeHost, cell: string): Promise<void> {
  host.cursor = cell;
  stores.push(await openTrace(host));
  fireEvent.click(screen.getByRole('button', { name: 'Trace the selected cell' }));
}

/*
 * The invented readings 611 … 598 lx less 2 lx of ambient light have a mean of 646.888… lx; on 1.6 m² that is
 * 1035.022 lm. Worked out by hand.
 */
describe('the chain of a result', () => {
  it('has its value, its formula in words and with numbers, and its source', async () => {
    const host = one();
    await traced(host, placeOf(host, 'WhiteLightOutputPlain'));
    const tree = await screen.findByRole('list', { name: /Chain of White light output/ });
    expect(within(tree).getByText('1035.022 lm')).toBeTruthy();
    expect(within(tree).getByText('mean(white net) × image area')).toBeTruthy();
    expect(
      within(tree).getByText('mean(609; 653; 602; 700; 739; 697; 588; 638; 596) × 1.6 = 1035.022'),
    ).toBeTruthy();
  });

  it('opens down to the readings, whose cells are gone to', async () => {
    const host = one();
    await traced(host, placeOf(host, 'WhiteLightOutputPlain'));
    const tree = await screen.findByRole('list', { name: /Chain of/ });
    expect(within(tree).queryByText(/numbers on the display/)).toBeNull();
    const net = within(tree).getByRole('button', { name: /White, full field: net illuminances/ });
    expect(net.getAttribute('aria-expanded')).toBe('false');
    fireEvent.click(screen.getByRole('button', { name: 'Open all' }));
    expect((await screen.findAllByText(/numbers on the display/)).length).toBeGreaterThan(0);
    const readings = placeOf(host, 'WhiteReadings');
    fireEvent.click(screen.getAllByRole('button', { name: `Go to ${readings}` })[0]!);
    await waitFor(() => expect(host.selected).toEqual([`${host.active}!${readings}`]));
  });

  it('goes on to the run sheets that the lines of an ageing sheet name', async () => {
    const runs = ['A', 'B'].map((unit) => smallRun(`run${unit.toLowerCase()}1`, unit));
    const points = [
      { hours: 0, output: 1100, remark: 'Run A' },
      { hours: 900, output: 1050, remark: 'when cleaned' },
      { hours: 1800, output: 1000, remark: 'Run B' },
    ];
    const ageing = ageingPlan({ ...defaultAgeing(), points }, 'ageing1');
    const host = hostWith(calculateBook(bookOf([ageing, ...runs])).sheets);
    await traced(host, placeOf(host, 'InitialOutput'));
    await screen.findByRole('list', { name: /Chain of/ });
    fireEvent.click(screen.getByRole('button', { name: 'Open all' }));
    expect((await screen.findAllByText(/; the run sheet “Run A”/)).length).toBeGreaterThan(0);
    expect(screen.getAllByText(/; “when cleaned”/).length).toBeGreaterThan(0);
    expect(screen.getAllByText(/is not what “Run B” says in/).length).toBeGreaterThan(0);
    // Of each run the function and its plain formula.
    expect(screen.getAllByRole('button', { name: /^White light output/ })).toHaveLength(4);
  });

  it('folds each step by its button', async () => {
    const host = one();
    await traced(host, placeOf(host, 'ImageArea'));
    const top = await screen.findByRole('button', { name: /^Image area/ });
    expect(screen.getByText('image width × image height')).toBeTruthy();
    fireEvent.click(top);
    await waitFor(() => expect(top.getAttribute('aria-expanded')).toBe('false'));
    expect(screen.queryByText('image width × image height')).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: 'Open all' }));
    expect(await screen.findByText('image width × image height')).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Close all' }));
    await waitFor(() => expect(screen.queryByText('image width × image height')).toBeNull());
  });

  it('says where the workbook is not as planned', async () => {
    const host = one();
    const at = placeOf(host, 'ImageArea');
    host.type(host.active, at, { value: 2, style: {} });
    await traced(host, placeOf(host, 'WhiteLightOutputPlain'));
    expect(await screen.findByText(/A constant stands in .* in place of its formula/)).toBeTruthy();
  });
});

it('is told of an empty cell, and of one that is typed', async () => {
  const host = one();
  await traced(host, 'Z99');
  expect(await screen.findByText(/Z99 on .* is empty. Select a cell with a result/)).toBeTruthy();
  host.cursor = placeOf(host, 'Projector');
  fireEvent.click(screen.getByRole('button', { name: 'Trace the selected cell' }));
  expect(await screen.findByText(/is typed or fixed: nothing stands behind it/)).toBeTruthy();
});

it('says what the host refuses', async () => {
  const host = one();
  host.failNext('selection', new HostError('editing', 'A cell is being edited.', 'Press Enter.', 'x'));
  await traced(host, 'A1');
  expect(await screen.findByText('A cell is being edited.')).toBeTruthy();
});

describe('the spreadsheet program’s own opinion', () => {
  it('is a cross-check where there is one', async () => {
    const host = hostWith(smallest().sheets, { platform: 'with precedents' });
    host.areas = ['ImageWidth', 'ImageHeight', 'ImageLength', 'AspectAcross', 'AspectDown'].map((name) => ({
      sheet: host.active,
      address: placeOf(host, name),
    }));
    await traced(host, placeOf(host, 'ImageArea'));
    expect(await screen.findByText(/^The spreadsheet program names the same cells behind /)).toBeTruthy();
    host.areas = [{ sheet: host.active, address: placeOf(host, 'ImageWidth') }];
    fireEvent.click(screen.getByRole('button', { name: 'Trace the selected cell' }));
    expect(
      await screen.findByText(/sees other cells .* it does not name .*\. Look at the formula\./),
    ).toBeTruthy();
  });

  it('is missed by nobody where there is none, or where asking fails', async () => {
    const host = one();
    await traced(host, placeOf(host, 'ImageArea'));
    await screen.findByRole('list', { name: /Chain of/ });
    expect(screen.queryByText(/The spreadsheet program/)).toBeNull();
    host.failNext('precedents', new Error('no'));
    fireEvent.click(screen.getByRole('button', { name: 'Trace the selected cell' }));
    expect(await screen.findByText(/^Traced /)).toBeTruthy();
  });
});

it('is written to a sheet of its own, as text', async () => {
  const host = one();
  const run = host.active;
  await traced(host, placeOf(host, 'WhiteLightOutput'));
  fireEvent.click(await screen.findByRole('button', { name: 'Write the chain to a sheet' }));
  expect(await screen.findByText(/^Wrote the chain to the sheet “Trace /)).toBeTruthy();
  const { book } = host.sheets.get(host.active)!;
  const texts = Object.values(book.cells).map(({ value }) => value);
  expect(texts).toContain(`${placeOf(host, 'WhiteLightOutput', run)} on the sheet “${run}”`);
  expect(texts.some((text) => String(text).startsWith('=IF(COUNT('))).toBe(true);
  expect(Object.values(book.cells).every(({ formula }) => formula === undefined)).toBe(true);
});

describe('as text', () => {
  it('goes to the clipboard', async () => {
    const writeText = vi.fn(async () => undefined);
    vi.stubGlobal('navigator', { ...navigator, clipboard: { writeText } });
    const host = one();
    await traced(host, placeOf(host, 'ImageArea'));
    fireEvent.click(await screen.findByRole('button', { name: 'Copy the chain as text' }));
    expect(await screen.findByText('Copied.')).toBeTruthy();
    expect(writeText).toHaveBeenCalledWith(expect.stringContaining('Image area = 1.6 m²'));
  });

  it('is shown where the clipboard is closed to the pane', async () => {
    const writeText = () => Promise.reject(new DOMException('Not allowed', 'NotAllowedError'));
    vi.stubGlobal('navigator', { ...navigator, clipboard: { writeText } });
    const host = one();
    await traced(host, placeOf(host, 'ImageArea'));
    fireEvent.click(await screen.findByRole('button', { name: 'Copy the chain as text' }));
    const shown = await screen.findByLabelText('Text to copy');
    expect((shown as HTMLTextAreaElement).value).toContain('Image area = 1.6 m²');
  });
});
