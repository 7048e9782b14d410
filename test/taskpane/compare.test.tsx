import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../src/excel/host';
import { runPlan } from '../../src/sheets/run';
import { App } from '../../taskpane/app';
import { codes, comparedRuns } from '../../taskpane/compare/compared';
import { compareOf } from '../../taskpane/compare/state';
import { comparisonView } from '../../taskpane/compare/view';
import { createStore, type Store } from '../../taskpane/store';
import { FakeHost } from './fakehost';
import { compared, SETUP } from './scenes';
import { unfold } from './unfold';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

// Pages are fetched when they are first opened, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

async function open(host: FakeHost, page = 'comparison'): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'cmp12345' });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open(page);
  if (page === 'comparison') await screen.findByText('New comparison');
  return store;
}

async function withRuns(count: number): Promise<FakeHost> {
  const host = new FakeHost();
  for (let i = 1; i <= count; i++) await host.build(runPlan({ ...SETUP, projector: `Unit ${i}` }, `run${i}`));
  return host;
}
const button = () => screen.getByRole('button', { name: /Build the comparison/ });

describe('a new comparison', () => {
  it('asks for runs first where there are none, and calls nothing wrong', async () => {
    await open(await withRuns(0));
    expect(screen.getByText(/A comparison takes two runs; this workbook has none yet/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: /Build the comparison/ })).toBeNull();
  });

  it('needs two runs, and says so', async () => {
    await open(await withRuns(1));
    expect(screen.getByText(/this workbook has one yet/)).toBeTruthy();
    cleanup();
    await open(await withRuns(2));
    fireEvent.click(screen.getByLabelText(/Unit 2/));
    expect(await screen.findByText('Choose at least two runs.')).toBeTruthy();
    expect(button().getAttribute('aria-disabled')).toBe('true');
  });

  it('takes twelve runs and no more', async () => {
    const store = await open(await withRuns(13));
    expect(compareOf(store).chosen.value).toHaveLength(12);
    fireEvent.click(screen.getByLabelText(/Unit 13/));
    expect(await screen.findByText(/At most 12 runs fit beside each other; 13 are chosen/)).toBeTruthy();
  });

  it('is built of the runs that are ticked, with links to them', async () => {
    const host = await withRuns(3);
    await open(host);
    fireEvent.click(screen.getByLabelText(/Unit 2/));
    fireEvent.click(button());
    expect(await screen.findByText(/Built the sheet “Comparison”/)).toBeTruthy();
    const { cells } = host.sheets.get('Comparison')!.book;
    expect(cells.B5!.formula).toContain("'Run Unit 1 Bright'!");
    expect(cells.C5!.formula).toContain("'Run Unit 3 Bright'!");
    expect(cells.D5).toBeUndefined();
  });

  it('shares what is chosen to be shared', async () => {
    const host = await withRuns(2);
    await open(host);
    fireEvent.change(screen.getByLabelText('Meter'), { target: { value: 'one for all' } });
    fireEvent.click(screen.getByLabelText(/Same ranges throughout/));
    fireEvent.click(button());
    await screen.findByText(/Built the sheet/);
    const { values } = await host.read('Comparison');
    expect(values.MeterCodes!.values).toEqual([[1, 1]]);
    expect(values.WhiteShared!.values[2]).toEqual([1, 0, 0]);
  });

  it('says what the host refuses, and builds nothing', async () => {
    const host = await withRuns(2);
    await open(host);
    host.failNext('build', new HostError('refused', 'The structure is protected.', 'Lift it.', 'x'));
    fireEvent.click(button());
    expect(await screen.findByText('The structure is protected.')).toBeTruthy();
    expect(host.sheets.has('Comparison')).toBe(false);
  });
});

describe('runs as a comparison takes them', () => {
  it.each([
    [['a', 'b', 'a'], 'by what the sheets say', [1, 2, 1]],
    [[undefined, undefined], 'by what the sheets say', [1, 2]],
    [['a', undefined, 'a'], 'by what the sheets say', [1, 2, 1]],
    [['a', 'b'], 'one for all', [1, 1]],
    [['a', 'a'], 'each its own', [1, 2]],
  ] as const)('%j, %s', (words, grouping, expected) => expect(codes(words, grouping)).toEqual(expected));

  it('have one image where size and place are alike', async () => {
    const host = await withRuns(2);
    host.put('Run Unit 1 Bright', 'ImageWidth', [[1.92]]);
    host.put('Run Unit 1 Bright', 'ImageHeight', [[1.2]]);
    host.put('Run Unit 2 Bright', 'ImageWidth', [[1.9201]]);
    host.put('Run Unit 2 Bright', 'ImageHeight', [[1.2]]);
    const read = async () => Promise.all([...host.sheets.keys()].map((sheet) => host.read(sheet)));
    const images = async () =>
      comparedRuns(await read(), 'each its own', 'by what the sheets say').map(({ image }) => image);
    // Nobody said that it is one place: what both have in common would cancel in their difference.
    expect(await images()).toEqual([1, 2]);
    for (const unit of [1, 2])
      host.put(`Run Unit ${unit} Bright`, 'Place', [[` Hall ${unit === 1 ? 'A' : 'a'} `]]);
    expect(await images()).toEqual([1, 1]);
    host.put('Run Unit 2 Bright', 'Place', [['Another room']]);
    expect(await images()).toEqual([1, 2]);
  });
});

describe('the comparison that is shown', () => {
  it('has a bar a run with its doubt, in words too', async () => {
    await open(await compared(), 'sheet');
    const bars = within(await screen.findByRole('list', { name: 'white light output' })).getAllByRole(
      'listitem',
    );
    expect(bars.map((bar) => bar.textContent)).toEqual([
      'Unit B, Bright(2600 ± 120) lm',
      'Unit B, Cinema(1421 ± 68) lm',
      'Unit B, Eco(2510 ± 120) lm',
    ]);
  });

  it('says of every two runs whether they differ', async () => {
    await open(await compared(), 'sheet');
    const pairs = within(await screen.findByRole('list', { name: /Differences of white/ })).getAllByRole(
      'listitem',
    );
    expect(pairs.map((pair) => pair.textContent!.match(/: (.*)$/)?.[1])).toEqual([
      'different',
      'not distinguishable',
      'different',
    ]);
    expect(screen.getByText(/2 of 3 pairs differ/)).toBeTruthy();
  });

  it('leaves out what a run has not', async () => {
    await open(await compared(), 'sheet');
    fireEvent.change(await screen.findByLabelText('Compare the'), { target: { value: 'Colour' } });
    const bars = await screen.findByRole('list', { name: 'colour light output' });
    expect(within(bars).getAllByRole('listitem')[2]!.textContent).toBe('Unit B, Econot measured');
    expect(screen.getByText(/1 of 1 pair differ/)).toBeTruthy();
  });

  it('compares the uniformity with its U, in per cent', async () => {
    await open(await compared(), 'sheet');
    fireEvent.change(await screen.findByLabelText('Compare the'), { target: { value: 'Uniformity' } });
    const bars = await screen.findByRole('list', { name: 'uniformity (min ÷ max)' });
    expect(within(bars).getAllByRole('listitem')[0]!.textContent).toBe('Unit B, Bright(85.2 ± 2.1) %');
    expect(screen.getByText('(0.3 ± 2.8) %')).toBeTruthy();
    expect(screen.getByText(/0 of 3 pairs differ/)).toBeTruthy();
  });

  it('says of a contrast that is only a bound that it is one', async () => {
    const host = await compared();
    host.put('Comparison', 'ContrastValues', [['at least 500', 812.4, 790]]);
    host.put('Comparison', 'ContrastU', [['no U of a bound', 41, 40]]);
    const contrast = comparisonView(await host.read('Comparison')).results.find(
      ({ id }) => id === 'Contrast',
    )!;
    expect(contrast.bars.map(({ text }) => text)).toEqual([
      'at least 500',
      '(812 ± 41) : 1',
      '(790 ± 40) : 1',
    ]);
  });

  it('follows the sheet, and goes with it', async () => {
    const host = await compared();
    await open(host, 'sheet');
    await screen.findByRole('list', { name: 'white light output' });
    host.put('Comparison', 'WhiteValues', [[2000, 1420.6, 2510.3]]);
    expect(await screen.findByText('(2000 ± 120) lm')).toBeTruthy();
    host.remove('Comparison');
    await waitFor(() => expect(screen.queryByRole('heading', { name: 'Comparison' })).toBeNull());
  });

  it('warns where function and plain formulas differ', async () => {
    const host = await compared();
    host.put('Comparison', 'WhiteAgreement', [['differ']]);
    const view = comparisonView(await host.read('Comparison'));
    expect(view.differing).toEqual(['white light output']);
    await open(host, 'sheet');
    expect(await screen.findByText(/differ for the white light output/)).toBeTruthy();
  });

  it('has no violation of WCAG that axe can find', async () => {
    await open(await compared(), 'sheet');
    await screen.findByRole('list', { name: 'white light output' });
    await unfold();
    const { violations } = await axe.run(document.body, {
      rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
    });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual(
      [],
    );
  });
});
