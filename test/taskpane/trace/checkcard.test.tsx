import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import type { Store } from '../../../taskpane/store';
import { sealed } from '../../audit/sealing';
import { measured } from '../../audit/sheets';
import type { FakeHost } from '../fakehost';
import { hostWith, one, openTrace, placeOf, several } from './audited';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function checked(host: FakeHost, which = 'Check this sheet'): Promise<void> {
  stores.push(await openTrace(host));
  fireEvent.click(screen.getByRole('button', { name: which }));
}
const findings = async () =>
  within(await screen.findByRole('list', { name: 'Findings' })).getAllByRole('listitem');

it('finds nothing on a sheet as built', async () => {
  await checked(one());
  expect(
    await screen.findByText(
      'Yes: everything is as built, and every result follows from what was typed. 1 sheet checked.',
    ),
  ).toBeTruthy();
});

it('names the cell, what was expected, what stands there and how serious it is, and goes there', async () => {
  const host = one();
  const at = placeOf(host, 'ImageArea');
  const { formula, value, style } = host.sheets.get(host.active)!.book.cells[at]!;
  host.type(host.active, at, { value, style: style! });
  await checked(host);
  const [first] = await findings();
  expect(first!.textContent).toContain('Error');
  expect(first!.textContent).toContain(`A constant stands in ${at}`);
  expect(within(first!).getByText(formula!)).toBeTruthy();
  expect(within(first!).getByText('1.6')).toBeTruthy();
  fireEvent.click(within(first!).getByRole('button', { name: `Go to ${at}` }));
  await waitFor(() => expect(host.selected).toEqual([`${host.active}!${at}`]));
});

it('looks at the sheet in front only, or at all of ours', async () => {
  const host = several(1, 2);
  const [first, second] = [...host.sheets.keys()];
  host.edit(second!, () => ({ isProtected: false }));
  await checked(host);
  expect(await screen.findByText(/^Yes: .* 1 sheet checked/)).toBeTruthy();
  expect(screen.queryByText(/not protected: a slip/)).toBeNull();
  fireEvent.click(screen.getByRole('button', { name: 'Check the whole workbook' }));
  expect(await screen.findByText(/^No: .* 2 sheets checked/)).toBeTruthy();
  expect(screen.getByText(/not protected: a slip/)).toBeTruthy();
  expect(host.calls.filter((call) => call.startsWith('book'))).toContain(`book ${first}`);
});

it('is told that the sheet in front is none of ours', async () => {
  const host = one();
  host.active = 'Sheet1';
  await checked(host);
  // Here, and beside the seal.
  await waitFor(() =>
    expect(screen.getAllByText(/^The sheet in front is not one of ours: bring one/)).toHaveLength(2),
  );
});

it('shows how far it is and stops when asked', async () => {
  const host = several(1, 2, 3);
  // The second sheet's reading waits until the cancel button was pressed.
  const { promise: gate, resolve: release } = withResolvers();
  const read = host.book.bind(host);
  const second = [...host.sheets.keys()][1]!;
  host.book = async (request) => {
    if (request?.sheets?.[0] === second) await gate;
    return read(request);
  };
  await checked(host, 'Check the whole workbook');
  expect(await screen.findByText(`Reading “${second}”`)).toBeTruthy();
  const bar = screen.getByRole('progressbar', { name: 'how far the check is' }) as HTMLProgressElement;
  expect([bar.value, bar.max]).toEqual([1, 6]);
  fireEvent.click(screen.getByRole('button', { name: 'Cancel the check' }));
  release();
  expect(await screen.findByText(/^Cancelled after 0 sheets/)).toBeTruthy();
  expect(screen.queryByRole('progressbar', { name: 'how far the check is' })).toBeNull();
});

it('moves on within a sheet and can be stopped there', async () => {
  const host = one();
  stores.push(await openTrace(host));
  // As if every look at the clock came a second later: the page gets its turn after every step.
  let now = 0;
  const clock = vi.spyOn(performance, 'now').mockImplementation(() => {
    now += 1000;
    return now;
  });
  const bar = () => screen.queryByRole<HTMLProgressElement>('progressbar', { name: 'how far the check is' });
  const values: number[] = [];
  const watch = new MutationObserver(() => {
    const value = bar()?.value;
    if (value !== undefined) values.push(value);
    if (value !== undefined && value > 1.2) fireEvent.click(screen.getByText('Cancel the check'));
  });
  watch.observe(document.body, { subtree: true, childList: true, attributes: true });
  fireEvent.click(screen.getByRole('button', { name: 'Check this sheet' }));
  expect(await screen.findByText(/^Cancelled after 0 sheets/)).toBeTruthy();
  watch.disconnect();
  clock.mockRestore();
  expect(new Set(values.filter((value) => value > 1 && value < 2)).size).toBeGreaterThan(1);
  expect(Math.max(...values)).toBeLessThan(1.5);
});

describe('repairs', () => {
  it('change nothing until asked; then one finding is repaired and the sheet is checked again', async () => {
    const host = one();
    const at = placeOf(host, 'ImageArea');
    const { formula, value, style } = host.sheets.get(host.active)!.book.cells[at]!;
    host.type(host.active, at, { value, style: style! });
    host.edit(host.active, () => ({ isProtected: false }));
    await checked(host);
    expect(await findings()).toHaveLength(2);
    expect(host.calls.some((call) => /^(restore|refresh|editNames|write)/.test(call))).toBe(false);
    fireEvent.click(screen.getByRole('button', { name: 'Put the planned formula back' }));
    expect(
      await screen.findByText(
        `Repaired ${at}. Yes: everything is as built, and every result follows from what was typed. 1 sheet checked.`,
      ),
    ).toBeTruthy();
    expect(host.sheets.get(host.active)!.book.cells[at]!.formula).toBe(formula);
    await waitFor(() =>
      expect(document.activeElement).toBe(screen.getByRole('heading', { name: 'Is everything as built?' })),
    );
  });

  it('do nothing when the finding is no longer true', async () => {
    const host = one();
    const at = placeOf(host, 'ImageArea');
    const before = host.sheets.get(host.active)!.book.cells[at]!;
    host.type(host.active, at, { value: 1.6, style: before.style! });
    await checked(host);
    await findings();
    host.type(host.active, at, before);
    fireEvent.click(screen.getByRole('button', { name: 'Put the planned formula back' }));
    expect(await screen.findByText(/That is no longer so; nothing was changed/)).toBeTruthy();
    expect(host.calls.some((call) => call.startsWith('restore'))).toBe(false);
  });

  it('refresh a sheet with formulas that stayed #NAME?', async () => {
    const host = one();
    host.put(host.active, 'WhiteLightOutput', [[{ error: '#NAME?' }]]);
    await checked(host);
    fireEvent.click((await screen.findAllByRole('button', { name: 'Refresh the results of the sheet' }))[0]!);
    await waitFor(() => expect(host.calls).toContain(`refresh ${host.active}`));
  });

  it('offer a refresh once a sheet', async () => {
    const host = one();
    for (const name of ['WhiteLightOutput', 'ImageArea']) host.put(host.active, name, [[1]]);
    await checked(host);
    expect((await findings()).length).toBeGreaterThan(2);
    expect(screen.getAllByRole('button', { name: 'Refresh the results of the sheet' })).toHaveLength(1);
  });

  it.each([
    ['a name that is gone', 'Set the name again'],
    ['a rule that is gone', 'Set the input rule again'],
    ['a lock that is open', 'Set the lock again'],
    ['a format that was altered', 'Set the number format again'],
    ['a label that was altered', 'Put the planned text back'],
    ['a stray entry', 'Empty the cell'],
    ['a sheet without protection', 'Protect the sheet again'],
    ['a call that a host rewrote', 'Put the planned formula back'],
  ])('put back %s', async (what, button) => {
    const host = one();
    spoil(host, what);
    await checked(host);
    fireEvent.click((await screen.findAllByRole('button', { name: button }))[0]!);
    expect(await screen.findByText(/^Repaired .* Yes: .* 1 sheet checked\.$/)).toBeTruthy();
  });

  it('let names written as if they were elsewhere point where they should, of the sheet and of the workbook', async () => {
    const host = one();
    const sheet = host.active;
    host.names = [{ name: 'Total', refersTo: "='[1]Sheet 1'!$A$1", comment: 'kept' }];
    host.edit(sheet, ({ names }) => ({
      names: names.map((each) =>
        each.name === 'SerialNumber' ? { ...each, refersTo: each.refersTo.replace("='", "='[1]") } : each,
      ),
    }));
    const wanted = `='${sheet}'!`;
    await checked(host);
    for (let left = (await findings()).length; left > 0; left--) {
      fireEvent.click((await screen.findAllByRole('button', { name: 'Set the name again' }))[0]!);
      await waitFor(() =>
        expect(screen.queryAllByRole('button', { name: 'Set the name again' })).toHaveLength(left - 1),
      );
    }
    expect(await screen.findByText(/Yes: .* 1 sheet checked\.$/)).toBeTruthy();
    expect(host.names).toEqual([{ name: 'Total', refersTo: "='Sheet 1'!$A$1", comment: 'kept' }]);
    const own = host.sheets.get(sheet)!.book.names.find(({ name }) => name === 'SerialNumber')!;
    expect(own.refersTo.startsWith(wanted)).toBe(true);
  });

  it('say what the host refuses, and keep the findings', async () => {
    const host = one();
    host.edit(host.active, () => ({ isProtected: false }));
    await checked(host);
    await findings();
    host.failNext('restore', new HostError('protected', 'It has a password.', 'Lift it first.', 'x'));
    fireEvent.click(screen.getByRole('button', { name: 'Protect the sheet again' }));
    expect(await screen.findByText('It has a password.')).toBeTruthy();
    expect(await findings()).toHaveLength(1);
  });

  it('offer none where a person must look', async () => {
    const host = one();
    const at = placeOf(host, 'WhiteReadings').split(':')[0]!;
    host.type(host.active, at, { value: 611, formula: '=600+11', style: { locked: false } });
    await checked(host);
    const own = (await findings()).filter((item) => item.textContent!.includes('holds a formula'));
    expect(own).toHaveLength(1);
    expect(own[0]!.textContent).toContain('Look at the reading, correct it or read again.');
    expect(within(own[0]!).getAllByRole('button')).toHaveLength(1);
  });
});

it('shows thirty findings first', async () => {
  const host = one();
  const { book } = host.sheets.get(host.active)!;
  host.sheets.clear();
  const strays = Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`Z${i + 60}`, { value: i }]));
  const next = hostWith([{ ...book, cells: { ...book.cells, ...strays } }]);
  await checked(next);
  expect(await findings()).toHaveLength(30);
  fireEvent.click(screen.getByRole('button', { name: 'Show all 40 findings' }));
  await waitFor(async () => expect(await findings()).toHaveLength(40));
});

function withResolvers(): { promise: Promise<void>; resolve: () => void } {
  const resolvers: (() => void)[] = [];
  const promise = new Promise<void>((resolve) => resolvers.push(resolve));
  return { promise, resolve: () => resolvers[0]!() };
}

/** Spoils one thing, leaving stored results true. */
function spoil(host: FakeHost, what: string): void {
  const sheet = host.active;
  const { book } = host.sheets.get(sheet)!;
  const at = placeOf(host, 'WhiteLightOutput');
  const cell = book.cells[at]!;
  const restyled = (style: object) => host.type(sheet, at, { ...cell, style: { ...cell.style, ...style } });
  if (what === 'a name that is gone') {
    // Nothing is computed with a serial number, so no result suffers with the name.
    host.edit(sheet, ({ names }) => ({ names: names.filter(({ name }) => name !== 'SerialNumber') }));
  } else if (what === 'a rule that is gone') {
    host.edit(sheet, ({ validations }) => ({ validations: validations.slice(1) }));
  } else if (what === 'a lock that is open') restyled({ locked: false });
  else if (what === 'a format that was altered') restyled({ format: '0' });
  else if (what === 'a label that was altered') {
    const [label] = Object.entries(book.cells).find(([, { value }]) => value === 'Image area')!;
    host.type(sheet, label, { ...book.cells[label]!, value: 'Something else' });
  } else if (what === 'a stray entry') host.type(sheet, 'Z99', { value: 5 });
  else if (what === 'a sheet without protection') host.edit(sheet, () => ({ isProtected: false }));
  else {
    const formula = cell.formula!.replace('LIGHT.OUTPUT', '[2]!_xldudf_LIGHT_OUTPUT');
    host.type(sheet, at, { ...cell, formula });
  }
}

describe('as a sheet', () => {
  it('the findings say of which moment they are, and what was found stays text', async () => {
    const host = one();
    const at = placeOf(host, 'ImageArea');
    host.type(host.active, at, { value: 1.6, formula: '=0.8+0.8', style: {} });
    const checked1 = host.active;
    await checked(host);
    await findings();
    fireEvent.click(screen.getByRole('button', { name: 'Write the findings to a sheet' }));
    expect(await screen.findByText(/^Wrote the findings to the sheet “Findings /)).toBeTruthy();
    const { book } = host.sheets.get(host.active)!;
    const texts = Object.values(book.cells).map(({ value }) => value);
    expect(texts).toContain('=0.8+0.8');
    expect(texts).toContain(checked1);
    expect(texts.some((text) => /^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d UTC$/.test(String(text)))).toBe(true);
    expect(Object.values(book.cells).every(({ formula }) => formula === undefined)).toBe(true);
    expect(book.isProtected).toBe(true);
  });

  it('is not checked itself, and says so', async () => {
    const host = one();
    await checked(host);
    fireEvent.click(await screen.findByRole('button', { name: 'Write the findings to a sheet' }));
    await screen.findByText(/^Wrote the findings/);
    fireEvent.click(screen.getByRole('button', { name: 'Check this sheet' }));
    expect(
      await screen.findByText(/The sheet in front is a report or the log: there is nothing in it to check/),
    ).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Check the whole workbook' }));
    expect(await screen.findByText(/^Yes: .* 1 sheet checked/)).toBeTruthy();
  });
});

it('tells one cause once, with every cell of it, and mends them together', async () => {
  const host = one();
  host.edit(host.active, () => ({ validations: [] }));
  await checked(host);
  const told = (await findings()).filter(({ textContent }) => /has lost its input rule/.test(textContent!));
  expect(told).toHaveLength(1);
  const item = told[0]!;
  const cells = within(item).getByRole('list', { name: 'Cells of the same cause', hidden: true });
  const others = within(cells).getAllByRole('button', { hidden: true });
  expect(others.length).toBeGreaterThan(20);
  const at = others[0]!.textContent!;
  fireEvent.click(within(cells).getByRole('button', { name: `Go to ${at}`, hidden: true }));
  await waitFor(() => expect(host.selected).toEqual([`${host.active}!${at}`]));
  fireEvent.click(within(item).getByRole('button', { name: 'Set the input rule again' }));
  expect(await screen.findByText(/^Repaired .* and \d+ more cells\./)).toBeTruthy();
  await waitFor(() => expect(screen.queryByText(/has lost its input rule/)).toBeNull());
});

it('tells a reading that was not calculated as one cause, not as every figure after it', async () => {
  const host = one();
  host.put(host.active, 'WhiteReadings', [[999]]);
  await checked(host);
  const items = await findings();
  const causes = items.filter(({ textContent }) => /does not hold what its formula gives/.test(textContent!));
  expect(causes).toHaveLength(1);
  expect(causes[0]!.textContent).toMatch(/\d+ more cells for the same cause/);
});

describe('seals that lost their sheets', () => {
  /** Two sealed runs. */
  async function twoSealed(): Promise<FakeHost> {
    const book = await sealed(await sealed(measured(1, 2)), 1);
    const host = hostWith(book.sheets);
    host.names = book.names;
    return host;
  }

  it('are not those of sheets that were not asked for', async () => {
    await checked(await twoSealed());
    expect(await screen.findByText(/^Yes: .* 1 sheet checked/)).toBeTruthy();
    expect(screen.queryByText(/no sheet bears it/)).toBeNull();
  });

  it('are told of the whole workbook, though none of its sheets is ours any more', async () => {
    const host = await twoSealed();
    for (const sheet of [...host.sheets.keys()]) host.edit(sheet, () => ({ names: [] }));
    await checked(host, 'Check the whole workbook');
    expect(await screen.findByText(/^No: .* 0 sheets checked/)).toBeTruthy();
    expect(screen.getAllByText(/no sheet bears it/)).toHaveLength(2);
  });
});
