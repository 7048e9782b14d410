import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { unfold } from '../unfold';

// Pages are fetched when they are first opened, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host = new FakeHost()): Promise<FakeHost> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'need0001' });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('need');
  await screen.findByRole('heading', { name: 'Room 1' });
  return host;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const field = (id: string) => document.getElementById(`need-${id}`) as HTMLInputElement;
const type = (id: string, text: string) => {
  const input = field(id);
  fireEvent.input(input, { target: { value: text } });
  fireEvent.blur(input);
};

/** An invented reading room that needs 14 × 50 lx ÷ (1 − 15 ÷ 400) × 2 m² ÷ 0.5 = 2909.1 lm. */
function typeRoom(place = 1, room = 'Reading room 3 (invented)', width = '2'): void {
  type(`${place}-room`, room);
  type(`${place}-width`, width);
  type(`${place}-height`, '1');
  type(`${place}-ambient`, '50');
  type(`${place}-ownContrast`, '400');
  type(`${place}-ageing`, '50');
  type(`${place}-mode`, '100');
}

/** As if the program had calculated. */
function calculate(host: FakeHost, white: number): void {
  host.put(host.active, 'RoomWhite', [[white]]);
  host.put(host.active, 'RoomColour', [[white]]);
  host.put(host.active, 'LargestWhite', [[white]]);
  host.put(host.active, 'LargestColour', [[white]]);
}

describe('the need step', () => {
  it('tells the need of a room at once', async () => {
    await open();
    expect(screen.getByText(/The need comes once/)).toBeTruthy();
    typeRoom();
    expect(await screen.findAllByText('2909.1 lm, rounded up')).toHaveLength(2);
    expect(screen.getByText(/The contrast decides/).textContent).toContain('15.0 to 1 on the screen');
    expect(screen.getByText(/asks for 2910 lm white and 2910 lm colour/)).toBeTruthy();
  });

  it('asks for the largest of several rooms; a removed room no longer counts', async () => {
    await open();
    typeRoom();
    press(/^Add a room$/);
    await screen.findByRole('heading', { name: 'Room 2' });
    // Twice the area: 5818.2 lm.
    typeRoom(2, 'Hall (invented)', '4');
    expect(await screen.findByText(/asks for 5820 lm white/)).toBeTruthy();
    press(/^Remove room 2$/);
    expect(await screen.findByText(/asks for 2910 lm white/)).toBeTruthy();
  });

  it('builds the sheet with rooms and words, and shows what stands there', async () => {
    const host = await open();
    typeRoom();
    press(/^Build the need sheet$/);
    expect(await screen.findByText('Built the sheet “Need”.')).toBeTruthy();
    const { values } = await host.read('Need');
    expect(values.Rooms!.values.flat().slice(0, 2)).toEqual(['Reading room 3 (invented)', null]);
    expect(values.TenderNeed!.values[0]![0]).toContain('no less than 2910 lm of white');
    calculate(host, 2909.09);
    expect(await screen.findByRole('rowheader', { name: 'Largest' })).toBeTruthy();
    expect(field('words').value).toMatch(/^Each unit is rated.*\n\nWhite light output is the mean of nine/);
    expect(screen.queryByText(/do not name the largest need/)).toBeNull();
  });

  it('says when the words name another figure than the sheet, and writes the first paragraph anew', async () => {
    const host = await open();
    typeRoom();
    press(/^Build the need sheet$/);
    await screen.findByText('Built the sheet “Need”.');
    calculate(host, 3500);
    await screen.findByText(/do not name the largest need/);
    press(/Write the first paragraph anew/);
    await waitFor(() => expect(screen.queryByText(/do not name the largest need/)).toBeNull());
    expect(field('words').value).toContain('3500 lm');
  });

  it('copies the words as edited here, and the sheet keeps its own', async () => {
    const copied: string[] = [];
    vi.stubGlobal('navigator', {
      ...navigator,
      clipboard: { writeText: async (text: string) => void copied.push(text) },
    });
    const host = await open();
    typeRoom();
    press(/^Build the need sheet$/);
    await screen.findByLabelText('Text for the tender');
    type('words', 'Other words');
    press(/^Copy the text$/);
    await screen.findByText('Copied.');
    expect(copied).toEqual(['Other words']);
    const { values } = await host.read('Need');
    expect(values.TenderNeed!.values[0]![0]).toContain('2910 lm');
    press(/Back to the words of the sheet/);
    await waitFor(() => expect(field('words').value).toContain('2910 lm'));
  });

  it('builds nothing while a field is not fit, and says why at the field', async () => {
    const host = await open();
    press(/^Build the need sheet$/);
    expect(await screen.findByText(/no room is described yet/)).toBeTruthy();
    typeRoom();
    type('1-ambient', '');
    press(/^Build the need sheet$/);
    expect(await screen.findByText(/one room needs another look/)).toBeTruthy();
    expect(field('1-ambient').getAttribute('aria-invalid')).toBe('true');
    // It does not look like success, and what is wrong may stand a screen above the button.
    expect(screen.getByText(/one room needs another look/).className).toBe('done refused');
    await waitFor(() => expect(document.activeElement).toBe(field('1-ambient')));
    type('1-ambient', '1,234');
    fireEvent.click(await screen.findByRole('button', { name: '1.234' }));
    // With a fourth decimal it can no longer be taken for 1234.
    await waitFor(() => expect(field('1-ambient').value).toBe('1.2340'));
    type('standard', '');
    press(/^Build the need sheet$/);
    expect(await screen.findByText(/words for the tender need another look/)).toBeTruthy();
    expect(host.sheets.size).toBe(0);
  });

  it('passes on what the program refuses, and keeps what was typed', async () => {
    const host = await open();
    typeRoom();
    host.failNext('build', new HostError('protected', 'The workbook is protected.', 'Unprotect it.'));
    press(/^Build the need sheet$/);
    expect(await screen.findByText('The workbook is protected.')).toBeTruthy();
    expect(field('1-room').value).toBe('Reading room 3 (invented)');
  });

  it('shows what the sheet says instead of a figure', async () => {
    const host = await open();
    typeRoom();
    press(/^Build the need sheet$/);
    await screen.findByText('Built the sheet “Need”.');
    host.put('Need', 'Rooms', [['Reading room 3'], ['Hall']]);
    host.put('Need', 'RoomWhite', [[2909.09], ['figures missing']]);
    host.put('Need', 'Agreement', [['differ']]);
    expect(await screen.findByText('figures missing')).toBeTruthy();
    expect(await screen.findByText(/In one line the function and the plain formula differ/)).toBeTruthy();
  });

  it('takes the rooms of a sheet back into the form, as they stand there', async () => {
    const host = await open();
    typeRoom();
    press(/^Build the need sheet$/);
    await screen.findByText('Built the sheet “Need”.');
    // Somebody goes on by hand on the sheet: 1.234 m is no question there, and "wide" no number.
    host.put('Need', 'Rooms', [['Reading room 3 (invented)'], ['Hall (invented)'], ['=Attic'], [null]]);
    host.put('Need', 'RoomWidth', [[1.234], [4], ['wide']]);
    host.put('Need', 'RoomHeight', [[1], [2.5], [1]]);
    host.put('Need', 'RoomAmbient', [[50], [20], [20]]);
    host.put('Need', 'RoomGain', [[1], [1.2], [1]]);
    host.put('Need', 'RoomAgeing', [[0.5], [0.29], [0.7]]);
    host.put('Need', 'RoomMode', [[1], [1], [1]]);
    host.put('Need', 'RoomColourPart', [[1], [1], [1]]);
    host.put('Need', 'RoomTask', [['basic decision making'], ['full-motion video'], ['dancing']]);
    await screen.findByRole('rowheader', { name: '=Attic' });
    press(/^Take the rooms back into the form$/);
    await screen.findByText(/Taken from “Need”: 3 rooms/);
    expect([field('1-width').value, field('2-width').value]).toEqual(['1.2340', '4']);
    expect([field('2-ageing').value, field('2-gain').value, field('2-task').value]).toEqual([
      '29',
      '1.2',
      'full-motion video',
    ]);
    expect(field('1-ownContrast').value).toBe('400');
    expect(field('3-room').value).toBe('=Attic');
    expect(field('3-width').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByText(/“dancing” is none of these/)).toBeTruthy();
    press(/^Build the need sheet$/);
    await screen.findByText(/one room needs another look/);
    press(/^Remove room 3$/);
    press(/^Build the need sheet$/);
    await screen.findByText('Built the sheet “Need 2”.');
    const { values } = await host.read('Need 2');
    expect(values.RoomWidth!.values.flat().slice(0, 2)).toEqual([1.234, 4]);
    expect(values.RoomAgeing!.values.flat()[1]).toBeCloseTo(0.29, 12);
  });

  it('has no accessibility fault', async () => {
    const host = await open();
    typeRoom();
    press(/^Add a room$/);
    press(/^Build the need sheet$/);
    await screen.findByText('Built the sheet “Need”.');
    calculate(host, 3500);
    await screen.findByText(/do not name the largest need/);
    const faults = async () => {
      await unfold();
      const { violations } = await axe.run(document.body, {
        rules: { 'color-contrast': { enabled: false } },
      });
      return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
    };
    expect(await faults()).toEqual([]);
    stores.at(-1)!.open('need');
    await screen.findByRole('heading', { name: /Reading room 3/ });
    type('1-luminance', '1,234');
    expect(await faults()).toEqual([]);
  });
});
