import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { runPlan } from '../../../src/sheets/run';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { App } from '../../../taskpane/app';
import { newRunOf } from '../../../taskpane/run/newrun';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { complete } from '../scenes';

/* Units and readings are invented: a regional library network fits out its reading rooms. */

// Parts of the pane are fetched when they are first shown, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

let ids = 0;
async function open(host = new FakeHost()): Promise<{ host: FakeHost; store: Store }> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => `batch${ids++}` });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  for (const [id, text] of [
    ['projector', 'Model K (invented)'],
    ['length', '1.6'],
    ['ratedWhite', '1500'],
  ] as const)
    newRunOf(store).form.type(id, text);
  store.open('batch');
  await screen.findByRole('heading', { name: 'New batch' });
  return { host, store };
}
const press = (name: RegExp | string) => fireEvent.click(screen.getByRole('button', { name, hidden: true }));
const type = (id: string, text: string) => {
  const input = document.getElementById(`batch-${id}`)!;
  fireEvent.input(input, { target: { value: text } });
  fireEvent.blur(input);
};

const SERIALS = ['K-1', 'K-2', 'K-3'];
const SHEET = 'Batch rooms (invented)';

/** Builds a batch of three units, and shows what a program would have calculated of their readings. */
async function withBatch() {
  const opened = await open();
  type('title', 'rooms (invented)');
  type('units', SERIALS.join('\n'));
  press('Build the batch sheet');
  await screen.findByText(`Built the sheet “${SHEET}” with 20 lines.`);
  const column = (values: (string | number | null)[]) => values.map((value) => [value]);
  opened.host.put(SHEET, 'UnitState', column(['complete', '1 over range; 8 of 9', '0 of 9']));
  opened.host.put(SHEET, 'UnitWhite', column([1100, '8 of 9', '0 of 9']));
  opened.host.put(SHEET, 'UnitWhiteU', column([88, '', '']));
  opened.host.put(SHEET, 'UnitDecision', column(['fail', 'to be measured', 'to be measured']));
  opened.host.put(SHEET, 'Agreement', column(['agree', 'agree', 'agree']));
  await screen.findByText('Not passing: 1');
  return opened;
}

describe('a new batch', () => {
  it('says what is missing only when it is to be built, and then builds nothing', async () => {
    const { host } = await open();
    type('units', 'K-1\nK-1');
    expect(screen.getByText('Line 2: “K-1” stands in line 1 already.')).toBeTruthy();
    press('Build the batch sheet');
    expect(
      await screen.findByText('Nothing was built: “Serial numbers, one a line” needs another look.'),
    ).toBeTruthy();
    expect(host.calls.filter((call) => call.startsWith('build'))).toEqual([]);
    type('units', 'K-1\nK-2');
    await waitFor(() => expect(screen.queryByText(/Nothing was built/)).toBeNull());
  });

  // By hand: 20 mm before a screen that is 2 m away, (1 - 0.01)² = 0.9801; 980.1 lx at the screen are 1000 lx there.
  it('holds centres against the run’s where its sensor was, since units are read there too', async () => {
    const host = await complete();
    host.put(host.active, 'ThrowDistance', [[2]]);
    host.put(host.active, 'SensorHeight', [[20]]);
    host.put(host.active, 'WhiteNet', [
      [900, 900, 900],
      [900, 980.1, 900],
      [900, 900, 900],
    ]);
    await open(host);
    fireEvent.change(document.getElementById('batch-readings')!, { target: { value: 'centre white' } });
    press(/Take it from the run/);
    expect((document.getElementById('batch-whiteReference') as HTMLInputElement).value).toBe('1000');
  });

  it('is built with its units, and its card shows how far it is', async () => {
    const { host } = await withBatch();
    const reading = await host.readNamed(SHEET, ['Serials', 'Limits', 'Projector']);
    expect(reading.Serials!.values.flat().slice(0, 4)).toEqual([...SERIALS, null]);
    expect(reading.Projector!.values).toEqual([['Model K (invented)']]);
    expect(screen.getByText('1 of 3 units complete', { selector: 'h3' })).toBeTruthy();
    expect(screen.getByRole('button', { name: 'K-1: fail, white (1100 ± 88) lm' })).toBeTruthy();
    expect(screen.getByRole('button', { name: 'K-2: 1 over range; 8 of 9' })).toBeTruthy();
    expect(screen.getByRole('button', { name: 'Go to K-3, next to be read' })).toBeTruthy();
  });

  it('can be stopped while it is built, and that is no trouble', async () => {
    const { host, store } = await open();
    type('units', 'K-1');
    const stop = store.troubles.busy;
    press('Build the batch sheet');
    await waitFor(() => expect(stop.value).toBe('Building the batch'));
    const button = await screen.findByRole('button', { name: 'Stop' });
    fireEvent.click(button);
    await screen.findByText(/Building was stopped/);
    expect([...host.sheets.keys()].some((name) => name.startsWith('Batch'))).toBe(false);
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('says in words what the program refuses', async () => {
    const { host } = await open();
    type('units', 'K-1');
    host.failNext('build', new HostError('busy', 'The program is busy.', 'Wait a moment.'));
    press('Build the batch sheet');
    expect(await screen.findByText('The program is busy.')).toBeTruthy();
  });
});

describe('the card', () => {
  it('goes to the row of a unit that does not pass', async () => {
    const { host } = await withBatch();
    press(/^K-1: fail/);
    await waitFor(() => expect(host.selected).toEqual([`${SHEET}!A7`]));
  });

  it('finds a unit by its serial number', async () => {
    await withBatch();
    type('unit', 'k-3');
    const found = await screen.findByRole('button', { name: 'K-3', hidden: true });
    fireEvent.click(found);
    expect(await screen.findByText(/: 0 of 9/, { selector: '.unit p' })).toBeTruthy();
    type('unit', 'nothing like it');
    expect(await screen.findByText(/^No unit of this batch fits: try a part/)).toBeTruthy();
  });

  it('offers to enter the function again where only plain formulas have results', async () => {
    const { host } = await withBatch();
    host.put(SHEET, 'Agreement', [['plain formula only']]);
    press(
      await screen
        .findByRole('button', { name: 'Enter the function again', hidden: true })
        .then(() => 'Enter the function again'),
    );
    await waitFor(() =>
      expect(host.calls.some((call) => call.startsWith(`enterAgain ${SHEET} FunctionTable`))).toBe(true),
    );
  });

  it('has no barrier that axe knows', async () => {
    await withBatch();
    const results = await axe.run(document.body, { rules: { 'color-contrast': { enabled: false } } });
    expect(results.violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });
});

describe('a meter log', () => {
  const nine = (value: string) => Array<string>(9).fill(value).join(';');

  it('is written where it is clean; the rest stays with its errors', async () => {
    const { host } = await withBatch();
    type('log-paste', `Serial;P1;P2;P3;P4;P5;P6;P7;P8;P9\nK-3;${nine('900,5')}\nK-9;${nine('900,5')}`);
    expect(await screen.findByText('Line 3: “K-9” is not in the batch.')).toBeTruthy();
    press('Write the 1 clean of 2 lines');
    await screen.findByText('1 line written. 1 line could not be taken and stays above.');
    const { Readings, UnitRemark } = await host.readNamed(SHEET, ['Readings', 'UnitRemark']);
    expect(Readings!.values[2]).toEqual(Array(9).fill(900.5));
    expect(Readings!.values[0]).toEqual(Array(9).fill(null));
    expect(UnitRemark!.values[2]).toEqual(['Meter log, 2026-11-25, line 2']);
    expect((document.getElementById('batch-log-paste') as HTMLTextAreaElement).value).toMatch(
      /^Serial;P1.*\nK-9;900,5/,
    );
  });

  it('comes from a file too, with another column for the serial numbers', async () => {
    const { host } = await withBatch();
    const text = `Hall\tK-3\t${nine('901').replaceAll(';', '\t')}\n`;
    const file = new File([text], 'meter.txt', { type: 'text/plain' });
    fireEvent.change(document.getElementById('batch-log-file')!, { target: { files: [file] } });
    await screen.findByText('Read “meter.txt”.');
    fireEvent.change(document.getElementById('batch-log-serial')!, { target: { value: '1' } });
    fireEvent.change(document.getElementById('batch-log-place')!, { target: { value: '0' } });
    press(await screen.findByText('Write 1 line').then(() => 'Write 1 line'));
    await screen.findByText('1 line written.');
    const { UnitPlaces, UnitRemark } = await host.readNamed(SHEET, ['UnitPlaces', 'UnitRemark']);
    expect(UnitPlaces!.values[2]).toEqual(['Hall']);
    expect(UnitRemark!.values[2]).toEqual(['Meter log meter.txt, 2026-11-25, line 1']);
  });

  it('nothing is lost when the program refuses', async () => {
    const { host } = await withBatch();
    const text = `K-3;${nine('900,5')}`;
    type('log-paste', text);
    host.failNext('writeBlocks', new HostError('editing', 'A cell is being edited.', 'Press Enter.'));
    press(await screen.findByText('Write 1 line').then(() => 'Write 1 line'));
    await screen.findByText('A cell is being edited.');
    expect((document.getElementById('batch-log-paste') as HTMLTextAreaElement).value).toBe(text);
  });

  it('goes into no line that has become that of another unit', async () => {
    const { host } = await withBatch();
    type('log-paste', `K-3;${nine('900,5')}`);
    await screen.findByText('Write 1 line');
    // The sheet is sorted anew, and the button pressed before the pane has looked again.
    host.put(SHEET, 'Serials', [['K-1'], ['K-3'], ['K-2']]);
    press('Write 1 line');
    await screen.findByText(
      `Line 3 of “${SHEET}” is no longer the one for “K-3”: somebody has changed the serial numbers there.`,
    );
    const { Readings } = await host.readNamed(SHEET, ['Readings']);
    expect(Readings!.values.flat().every((value) => value === null)).toBe(true);
  });

  it('leaves a text alone that was pasted while another one was written', async () => {
    await withBatch();
    type('log-paste', `K-3;${nine('900,5')}`);
    press(await screen.findByText('Write 1 line').then(() => 'Write 1 line'));
    type('log-paste', 'K-2;');
    await screen.findByText('1 line written. What stands above came after them.');
    expect((document.getElementById('batch-log-paste') as HTMLTextAreaElement).value).toBe('K-2;');
  });

  it('leaves a text alone that was pasted while a file was read', async () => {
    await withBatch();
    const file = new File([`K-3;${nine('901')}`], 'meter.txt', { type: 'text/plain' });
    const isRead = vi.spyOn(file, 'arrayBuffer');
    fireEvent.change(document.getElementById('batch-log-file')!, { target: { files: [file] } });
    type('log-paste', 'K-2;');
    await isRead.mock.results[0]!.value;
    await screen.findByDisplayValue('K-2;');
    expect(screen.queryByText('Read “meter.txt”.')).toBeNull();
  });

  it('a number that can mean two things is asked for first', async () => {
    await withBatch();
    type('log-paste', `K-3;${nine('1,234')}`);
    const question = (await screen.findByText(/can mean 1234 or 1.234/)).closest('div')!;
    expect(screen.getByRole('button', { name: 'Nothing to write yet', hidden: true })).toBeTruthy();
    fireEvent.click(within(question).getByText(/the point is the decimal mark/));
    expect(await screen.findByText('Write 1 line')).toBeTruthy();
  });
});

describe('a unit and its run sheet', () => {
  it('is opened with its readings, and its readings come back with a remark', async () => {
    const { host } = await withBatch();
    await host.writeBlocks(SHEET, [
      { name: 'Readings', row: 0, column: 0, values: [[...Array<number>(8).fill(800), null]] },
    ]);
    press(/^K-1: fail/);
    press(await screen.findByText('Open as a run sheet').then(() => 'Open as a run sheet'));
    await screen.findByText(/Opened K-1 as the sheet “Run K-1”/);
    const run = await host.readNamed('Run K-1', ['WhiteReadings', 'SerialNumber']);
    expect(run.WhiteReadings!.values.flat()).toEqual([...Array<number>(8).fill(800), null]);
    expect(run.SerialNumber!.values).toEqual([['K-1']]);
    // What the program would calculate on both sheets.
    host.put('Run K-1', 'WhiteReadings', [
      [801, 802, 803],
      [804, 805, 806],
      [807, 808, 809],
    ]);
    for (const [sheet, name, value] of [
      ['Run K-1', 'LuxPerUnit', 1],
      ['Run K-1', 'ImageArea', 1.6],
      ['Run K-1', 'AmbientMean', 2],
      [SHEET, 'DisplayFactors', 1],
      [SHEET, 'ImageArea', 1.6],
      [SHEET, 'LuxPerUnit', 1],
    ] as const)
      host.put(sheet, name, [[value]]);
    host.activate(SHEET);
    await screen.findByText('Not passing: 1');
    press(
      await screen.findByText('Take its readings into the row').then(() => 'Take its readings into the row'),
    );
    await screen.findByText(/^9 readings of “Run K-1” are in the line of K-1 now\./);
    const { Readings, UnitRemark } = await host.readNamed(SHEET, ['Readings', 'UnitRemark']);
    expect(Readings!.values[0]).toEqual([801, 802, 803, 804, 805, 806, 807, 808, 809]);
    expect(UnitRemark!.values[0]![0]).toMatch(/^From run sheet “Run K-1”, 2026-11-25/);
  });

  /** Run sheets by the serial number that they bear; what a tab is called is for a person to say. */
  async function withRuns(runs: readonly (readonly [title: string, serial: string])[]) {
    const opened = await withBatch();
    for (const [title, serial] of runs) {
      const plan = runPlan({ ...defaultRunSetup(), serial }, `run${ids++}`);
      await opened.host.build({ ...plan, title });
    }
    opened.host.activate(SHEET);
    await screen.findByText('Not passing: 1');
    press(/^K-1: fail/);
    const select = (await screen.findByLabelText('Run sheet of this unit')) as HTMLSelectElement;
    return { ...opened, select };
  }
  const offered = (select: HTMLSelectElement) => [...select.options].map(({ value }) => value);

  it('is told by the serial number on the run, not by a name that happens to hold it', async () => {
    const { select } = await withRuns([
      ['Run K-12', 'K-12'],
      ['Hall, after cleaning', 'K-1'],
      ['Run K-1', 'K-7'],
    ]);
    await waitFor(() => expect(select.value).toBe('Hall, after cleaning'));
    expect(offered(select)).toEqual(['Hall, after cleaning', 'Run K-12', 'Run K-1']);
  });

  it('is chosen by nobody but a person where no run bears the serial number, or several do', async () => {
    const { host, select } = await withRuns([['Run K-12', 'K-12']]);
    await screen.findByText(/^No run sheet bears the serial number “K-1”: choose it by hand/);
    expect(select.value).toBe('');
    press('Take its readings into the row');
    await screen.findByText('Choose first which run sheet to take them from.');
    for (const title of ['Before', 'After'])
      await host.build({ ...runPlan({ ...defaultRunSetup(), serial: 'K-1' }, `run${ids++}`), title });
    host.activate(SHEET);
    await screen.findByText('2 run sheets bear the serial number “K-1”. Which one counts is for you to say.');
    expect(select.value).toBe('');
    fireEvent.change(select, { target: { value: 'After' } });
    await waitFor(() => expect(select.value).toBe('After'));
    expect(offered(select)).toEqual(['Before', 'After', 'Run K-12']);
  });

  it('chosen for one unit is not chosen for the next', async () => {
    const { select } = await withRuns([
      ['Run K-1', 'K-1'],
      ['Run K-2', 'K-2'],
    ]);
    fireEvent.change(select, { target: { value: 'Run K-1' } });
    press(/^K-2: /);
    await waitFor(() => expect(select.value).toBe('Run K-2'));
  });
});
