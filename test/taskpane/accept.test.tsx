import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { serialsOf } from '../../src/procurement/lot/serials';
import { cellName, rectOf } from '../../src/sheets/address';
import type { CellName } from '../../src/sheets/names/all';
import { runPlan } from '../../src/sheets/run';
import { LOT, type LotTexts, understandLot } from '../../taskpane/accept/form';
import { takingFor } from '../../taskpane/accept/taking';
import { App } from '../../taskpane/app';
import { readAll, startOf, unfitIn } from '../../taskpane/form/read';
import { createStore, type Store } from '../../taskpane/store';
import { FakeHost } from './fakehost';
import { putResult, SETUP } from './scenes';
import { unfold } from './unfold';

// Pages are fetched when they are first opened, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host = new FakeHost(), page = 'lot'): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'lot00001' });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open(page);
  // The page is fetched when it is first opened.
  await screen.findByRole(
    'heading',
    { name: /^(Sample of a lot|Certificate of one run)$/ },
    { timeout: 10_000 },
  );
  return store;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const type = (id: string, text: string) => {
  const input = document.getElementById(`accept-${id}`)!;
  fireEvent.input(input, { target: { value: text } });
  fireEvent.blur(input);
};

/** Sixty invented serials. */
const SERIALS = Array.from({ length: 60 }, (_, i) => `BIB-${String(i + 1).padStart(3, '0')}`);

function typeLot(): void {
  type('lot', 'Delivery 1 (invented)');
  type('serials', SERIALS.join('\n'));
  type('seed', '4 2 6 1');
  type('leastWhite', '2000');
}

/** A run sheet of one unit of the lot. */
async function addRun(host: FakeHost, serial: string, white: number | string): Promise<string> {
  const { sheet } = await host.build(runPlan({ ...SETUP, serial, colour: 'none' }, `run${serial.slice(4)}`));
  putResult(host, 'WhiteLightOutput', white);
  putResult(host, 'WhiteExpanded', 90);
  return sheet;
}

describe('the acceptance step', () => {
  it('shows plan, sample and protection as soon as list, seed and limit are there', async () => {
    await open();
    typeLot();
    // Lot of 60, AQL 2.5: letter E, arrow to 20 and 1 (MIL-STD-105E, see test/references/lots.ts).
    expect(
      await screen.findByText(/20 units of 60 to measure; accepted with at most 1 that does not/),
    ).toBeTruthy();
    expect(screen.getAllByText(/^ticket /)).toHaveLength(20);
    expect(screen.getByText(/is no proof that the rest of the lot conforms/)).toBeTruthy();
    const curve = screen.getByLabelText(/^Accepted for certain with none that fail/);
    const table = curve.closest('figure')!.querySelector('details')!;
    table.open = true;
    fireEvent(table, new Event('toggle'));
    expect(await screen.findByText('0 of 60')).toBeTruthy();
  });

  it('offers every AQL that counts units, levels and severities, with the rules of switching in words', async () => {
    const host = new FakeHost();
    await open(host);
    typeLot();
    const choices = (id: string) =>
      Array.from(
        (document.getElementById(`accept-${id}`) as HTMLSelectElement).options,
        ({ value }) => value,
      );
    const pick = (id: string, value: string) =>
      fireEvent.change(document.getElementById(`accept-${id}`)!, { target: { value } });
    // ISO 2859-1: 16 AQLs up to 10 % count units.
    expect([choices('aql').length, choices('aql')[0], choices('aql').at(-1)]).toEqual([16, '0.01', '10']);
    expect(choices('level')).toEqual(['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III']);
    expect(screen.getByText(/normal inspection becomes tightened when two of five/)).toBeTruthy();
    pick('aql', '4');
    pick('level', 'III');
    pick('severity', 'reduced');
    // Letter F at level III; reduced, AQL 4: 8 units, Ac 1, Re 3 (MIL-STD-105E, see test/references/singlesampling.ts).
    const told = await screen.findByText(/8 units of 60 to measure; accepted with at most 2 that do not/);
    expect(told.textContent).toContain('with more than 1 the next lot is inspected normally');
    expect(screen.getByText(/reduced inspection becomes normal when a lot is rejected/)).toBeTruthy();
    press(/Build the acceptance sheet/);
    await screen.findByText(/Built the sheet/);
    const { values } = await host.read(host.active);
    expect([values.InspectionLevel!.values, values.Severity!.values]).toEqual([[['III']], [['reduced']]]);
  });

  it('builds the sheet with the draw recorded as values', async () => {
    const host = new FakeHost();
    await open(host);
    typeLot();
    press(/Build the acceptance sheet/);
    expect(await screen.findByText(/Built the sheet \u201cAcceptance Delivery 1/)).toBeTruthy();
    const { kind, values } = await host.read(host.active);
    expect(kind).toBe('acceptance');
    expect(values.DrawPlaces!.values.flat().filter((place) => place !== null)).toHaveLength(20);
    expect(values.Serials!.values.flat()).toEqual(SERIALS);
  });

  it('builds nothing without a seed or with a serial listed twice, and says why', async () => {
    const host = new FakeHost();
    await open(host);
    typeLot();
    type('seed', ' ');
    press(/Build the acceptance sheet/);
    expect(await screen.findByText(/A seed is needed/)).toBeTruthy();
    type('seed', '7');
    type('serials', 'A\nB\nA');
    // Said while typing, at the list: the button need not be pressed to learn it.
    expect(await screen.findByText(/^The serial "A" is listed 2 times/)).toBeTruthy();
    press(/Build the acceptance sheet/);
    expect(
      await screen.findByText('Nothing was built: “Serials of every unit, one a line” needs another look.'),
    ).toBeTruthy();
    const list = document.getElementById('accept-serials')!;
    expect(list.getAttribute('aria-invalid')).toBe('true');
    await waitFor(() => expect(document.activeElement).toBe(list));
    expect(host.sheets.size).toBe(0);
    type('serials', 'A\nB\nC');
    await waitFor(() => expect(screen.queryByText(/Nothing was built/)).toBeNull());
  });

  it('repeats a decimal comma as understood, and asks where it could be a factor of 1000', async () => {
    await open();
    type('leastWhite', '2500,5');
    expect(await screen.findByText('Understood as 2500.5 lm.')).toBeTruthy();
    type('leastColour', '2.500');
    expect(await screen.findByText(/can mean 2\.5 or 2500/)).toBeTruthy();
    press(/^2500$/);
    await waitFor(() =>
      expect((document.getElementById('accept-leastColour') as HTMLInputElement).value).toBe('2500'),
    );
    expect(screen.queryByText(/Which is it/)).toBeNull();
  });

  /** A lot on a sheet, and runs: one with a result, one without, one that was not drawn, one of another lot. */
  async function lotWithRuns(host: FakeHost) {
    await open(host);
    typeLot();
    press(/Build the acceptance sheet/);
    await screen.findByText(/Built the sheet/);
    const lot = host.active;
    const places = (await host.read(lot)).values.DrawPlaces!.values.flat();
    const drawn = places.findIndex((place) => place !== null);
    const second = places.findIndex((place, i) => place !== null && i > drawn);
    const spared = places.indexOf(null);
    const run = await addRun(host, SERIALS[drawn]!, 2104.5);
    await addRun(host, SERIALS[second]!, '3 of 9');
    await addRun(host, SERIALS[spared]!, 1800);
    await addRun(host, 'not-ours', 2000);
    host.active = lot;
    await stores[0]!.workbook.look();
    return { lot, run, drawn, second, spared };
  }
  const formulaOf = async (host: FakeHost, sheet: string, name: CellName, line: number) => {
    const { row, column } = rectOf((await host.read(sheet)).values[name]!.address);
    return host.sheets.get(sheet)!.book.cells[cellName(row + line, column)]?.formula ?? '';
  };

  it('copies results of runs by serial, and says what it left out', async () => {
    const host = new FakeHost();
    const { lot, run, drawn, second } = await lotWithRuns(host);
    fireEvent.click(await screen.findByRole('button', { name: 'Copy them as numbers' }));
    expect(await screen.findByText(`2 units copied into “${lot}”.`)).toBeTruthy();
    expect(screen.getByText(new RegExp(`${SERIALS[second]}\\) has no result yet`))).toBeTruthy();
    expect(screen.getByText(/was not drawn: its result is listed and not counted/)).toBeTruthy();
    const { values } = await host.read(lot);
    expect([values.UnitWhite!.values[drawn], values.UnitWhiteU!.values[drawn]]).toEqual([[2104.5], [90]]);
    expect(values.UnitRemark!.values[drawn]).toEqual([`copied from “${run}”`]);
    expect(values.UnitWhite!.values[second]).toEqual([null]);
  });

  it('links results of runs, waiting ones too, and leaves figures that somebody typed', async () => {
    const host = new FakeHost();
    const { lot, run, drawn, second, spared } = await lotWithRuns(host);
    host.put(
      lot,
      'UnitWhite',
      SERIALS.map((_, i) => [i === spared ? 1777 : (undefined as never)]),
    );
    fireEvent.click(await screen.findByRole('button', { name: 'Link the results' }));
    expect(await screen.findByText(`2 units linked into “${lot}”.`)).toBeTruthy();
    expect(screen.getByText(new RegExp(`Serial ${SERIALS[spared]}: other figures`))).toBeTruthy();
    for (const name of ['UnitWhite', 'UnitWhiteU', 'UnitSource'] as const)
      expect(await formulaOf(host, lot, name, drawn)).toContain(`'${run}'!$`);
    expect(await formulaOf(host, lot, 'UnitWhite', second)).toContain('IFERROR');
    expect(await formulaOf(host, lot, 'UnitWhite', spared)).toBe('');
    expect((await host.read(lot)).values.UnitWhite!.values[spared]).toEqual([1777]);
  });

  it('shows where the lot stands and what failed, as the sheet says it', async () => {
    const host = new FakeHost();
    const { lot } = await lotWithRuns(host);
    host.put(lot, 'LotSentence', [['Lot 1: 20 of 20 units are measured. The lot is rejected.']]);
    host.put(lot, 'Failures', [['BIB-017']]);
    host.put(lot, 'FailureReasons', [['colour 31 % under the least; colour is 55 % of white']]);
    expect(await screen.findByText(/The lot is rejected/)).toBeTruthy();
    expect(screen.getByText(/colour 31 % under the least/)).toBeTruthy();
  });

  it('builds the certificate of a run, linked to its cells', async () => {
    const host = new FakeHost();
    const run = await addRun(host, 'BIB-007', 2104.5);
    await open(host, 'certificate');
    type('issuedBy', 'Library network (invented)');
    press(/^Certificate of/);
    expect(await screen.findByText(/Built the sheet \u201cCertificate/)).toBeTruthy();
    const { cells } = host.sheets.get(host.active)!.book;
    const { values } = await host.read(host.active);
    expect(values.IssuedBy!.values).toEqual([['Library network (invented)']]);
    expect(cells[values.CertifiedWhite!.address]!.formula).toContain(`'${run}'!$`);
  });

  it('has no accessibility fault', async () => {
    const host = new FakeHost();
    await addRun(host, 'BIB-007', 2104.5);
    await open(host);
    typeLot();
    await screen.findByText(/20 units of 60/);
    press(/Build the acceptance sheet/);
    await screen.findByRole('button', { name: /Link the results/ });
    await unfold();
    const { violations } = await axe.run(document.body, { rules: { 'color-contrast': { enabled: false } } });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
});

describe('what the fields mean', () => {
  const LIKE: LotTexts = { ...startOf(LOT), seed: '1', leastWhite: '2000' };
  it('serials come one a line, from a table by its first column, without empty lines', () => {
    expect(serialsOf(' A1 \r\nB2\troom 3\n\n\rC3')).toEqual(['A1', 'B2', 'C3']);
  });

  it('nothing judged, one unit and too many units are refused', () => {
    const at = (rest: Partial<LotTexts>) => unfitIn(readAll(LOT, { ...LIKE, ...rest }));
    expect(at({ serials: 'A\nB', leastWhite: '' })).toEqual(['leastWhite']);
    expect(at({ serials: 'A' })).toEqual(['serials']);
    expect(at({ serials: Array.from({ length: 501 }, (_, i) => `S${i}`).join('\n') })).toEqual(['serials']);
  });

  it('of two runs of one serial the first is taken, and that is said', async () => {
    const host = new FakeHost();
    const drawn = understandLot({ ...LIKE, serials: 'BIB-001\nBIB-002' }, '');
    if (!drawn?.ok) throw new Error('nothing drawn');
    const { acceptancePlan } = await import('../../src/sheets/acceptance');
    const { sheet } = await host.build(acceptancePlan(drawn.value, 'two'));
    const runs = [await addRun(host, 'BIB-001', 2100), await addRun(host, 'BIB-001', 1900)];
    const readings = await Promise.all(runs.map((run) => host.read(run)));
    const { lines, remarks } = takingFor(await host.read(sheet), {}, readings);
    expect(lines.map(({ line, figures }) => [line, figures.UnitWhite])).toEqual([[0, 2100]]);
    expect(remarks.join()).toMatch(/has two runs/);
  });
});
