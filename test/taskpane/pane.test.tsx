import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../src/excel/host';
import { FUNCTIONS } from '../../src/functions/table';
import { App } from '../../taskpane/app';
import { PAGES } from '../../taskpane/pages/pages';
import { memoryPreferences } from '../../taskpane/preferences';
import { newRunOf } from '../../taskpane/run/newrun';
import { pasteOf } from '../../taskpane/run/paste';
import { createStore, type Store } from '../../taskpane/store';
import { FakeHost } from './fakehost';
import { complete, halfway, putResult, runHost } from './scenes';
import { unfold } from './unfold';

// Pages are fetched when they are first opened, and a machine may be busy.
configure({ asyncUtilTimeout: 15_000 });

const stores: Store[] = [];

/** The pane over a host, as a person finds it. */
async function open(host: FakeHost, preferences = memoryPreferences(), page?: string): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', makeId: () => 'newrun01', preferences });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open(page ?? (host.sheets.size > 0 ? 'sheet' : 'run'));
  // A page that is not loaded yet shows nothing at first.
  await waitFor(() => expect(document.querySelector('main h2')).toBeTruthy());
  await waitFor(() => expect(screen.queryByText('Loading \u2026')).toBeNull());
  return store;
}
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const type = (label: RegExp, text: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value: text } });
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));

describe('the pane', () => {
  it('says what it may be waiting for when the program does not answer', async () => {
    const store = await open(new FakeHost());
    let answer = () => {};
    const waiting = new Promise<void>((resolve) => {
      answer = resolve;
    });
    const done = store.troubles.attempt('Building the run sheet', () => waiting);
    const status = await screen.findByText(/^Building the run sheet/);
    expect(status.textContent).toBe('Building the run sheet \u2026');
    await waitFor(
      () =>
        expect(status.textContent).toBe(
          'Building the run sheet \u2026 If a cell is being edited, press Enter in the sheet: it waits for that.',
        ),
      { timeout: 20_000 },
    );
    answer();
    await done;
    await waitFor(() => expect(status.textContent).toBe(''));
  });

  it('has four places, and asks a person with an empty workbook what to find out', async () => {
    const store = await open(new FakeHost(), undefined, 'home');
    const places = within(screen.getByRole('navigation', { name: 'Places' })).getAllByRole('button');
    expect(places.map((place) => place.textContent)).toEqual(['Home', 'This sheet', 'New', 'More']);
    expect(screen.getByRole('heading', { level: 2, name: 'What do you want to find out?' })).toBeTruthy();
    press(/How bright is this projector/);
    expect(store.page.value).toBe('run');
    expect(await screen.findByLabelText(/^Projector/)).toBeTruthy();
    // From there back to all that can be made.
    fireEvent.click(screen.getAllByRole('button', { name: 'New' }).at(-1)!);
    expect(await screen.findByRole('heading', { name: 'New sheet' })).toBeTruthy();
  });

  it('opens every page that it offers', async () => {
    const store = await open(new FakeHost());
    for (const { id } of PAGES) {
      store.open(id);
      await waitFor(() => expect(document.querySelector('main h2')).toBeTruthy());
      await waitFor(() => expect(screen.queryByText('Loading \u2026')).toBeNull());
    }
  });

  it('shows every custom function with its arguments, formula and source', async () => {
    await open(new FakeHost(), undefined, 'functions');
    for (const { id, summary, formula, source } of FUNCTIONS) {
      const entry = (await screen.findByText(`LIGHT.${id}`)).closest('details')!;
      for (const words of [summary, formula, source]) expect(entry.textContent).toContain(words);
    }
  });

  it('keeps what was typed while another page is looked at', async () => {
    const store = await open(new FakeHost());
    type(/^Projector/, 'Branch 7');
    press(/^More$/);
    store.open('run');
    expect(await screen.findByDisplayValue('Branch 7')).toBeTruthy();
  });
});

describe('a form', () => {
  it('keeps a draft when it is left, and is as it was when it is cancelled', async () => {
    const store = await open(new FakeHost(), undefined, 'home');
    store.open('run');
    await screen.findByRole('button', { name: 'Cancel' });
    await screen.findByLabelText(/^Projector/);
    type(/^Projector/, 'Branch 7');
    store.open('home');
    await screen.findByRole('heading', { name: 'What do you want to find out?' });
    store.open('run');
    await screen.findByRole('button', { name: 'Cancel' });
    await screen.findByLabelText(/^Projector/);
    type(/^Projector/, 'Branch 8');
    press(/^Cancel$/);
    expect(store.page.value).toBe('home');
    expect(newRunOf(store).form.texts.value.projector).toBe('Branch 7');
  });
});

describe('the sheet in front', () => {
  it('follows what comes to the front, but not under the hands of somebody who types', async () => {
    const host = await runHost();
    const first = host.active;
    const { runPlan } = await import('../../src/sheets/run');
    const { SETUP } = await import('./scenes');
    const other = await host.build(runPlan({ ...SETUP, projector: 'Other (invented)' }, 'other123'));
    const store = await open(host);
    const title = () => document.getElementById('sheet-title')?.textContent;
    expect(title()).toBe(other.sheet);
    host.activate(first);
    await waitFor(() => expect(title()).toBe(first));
    fireEvent.input(screen.getByRole('textbox', { name: 'Readings', hidden: true }), {
      target: { value: '248' },
    });
    host.activate(other.sheet);
    fireEvent.click(await screen.findByRole('button', { name: `Show “${other.sheet}”` }));
    await waitFor(() => expect(title()).toBe(other.sheet));
    // What was typed about the first one is not lost.
    expect(pasteOf(store).text.value).toBe('248');
  });

  it('says of a sheet that is not ours what it is, and leads to those that are', async () => {
    const host = await runHost();
    const run = host.active;
    host.active = 'Budget';
    await open(host);
    expect(screen.getByRole('heading', { name: '“Budget” is not a sheet of this add-in' })).toBeTruthy();
    press(new RegExp(`^${run.replace(/[()]/g, '\\$&')}$`));
    await waitFor(() => expect(host.selected).toEqual([`${run}!A1`]));
  });

  it('has exactly one main button, for what comes next', async () => {
    const mains = () =>
      [...document.querySelectorAll('.place .action.main')].filter((b) => !b.closest('details:not([open])'));
    await open(await halfway());
    await waitFor(() => expect(mains().map((b) => b.textContent)).toEqual(['Take readings in a window']));
    cleanup();
    await open(await complete());
    await waitFor(() => expect(mains().map((b) => b.textContent)).toEqual(['Make the certificate']));
  });
});

describe('cautions', () => {
  it('come before the first readings, with the eyes first and the makers\u2019 and the law\u2019s precedence last', async () => {
    await open(await runHost());
    const cautions = screen.getByText('Before you measure').closest('details')!;
    expect(cautions.open).toBe(true);
    expect(within(cautions).getAllByRole('listitem')[0]!.textContent).toMatch(/^Eyes first/);
    expect(cautions.textContent).toMatch(/local law come first.*licensed or trained/);
    const take = await screen.findByRole('button', { name: 'Take readings in a window' });
    expect(cautions.compareDocumentPosition(take) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
  });

  it('are not shown again once read, and stay one press away', async () => {
    const preferences = memoryPreferences();
    const store = await open(await runHost(), preferences);
    press(/I have read this/);
    await waitFor(() => expect(screen.queryByText('Before you measure')).toBeNull());
    cleanup();
    await open(await runHost(), preferences);
    expect(screen.queryByText('Before you measure')).toBeNull();
    press(/^Cautions$/);
    expect((await screen.findAllByText(/^Eyes first/)).length).toBeGreaterThan(0);
    void store;
  });
});

describe('the set-up form', () => {
  it('shows five fields of a first run, and the rest folded', async () => {
    await open(new FakeHost());
    const groups = [...document.querySelectorAll('details.group')] as HTMLDetailsElement[];
    expect(groups.length).toBeGreaterThan(0);
    expect(groups.every((group) => !group.open)).toBe(true);
  });

  it('draws the image as soon as its size is known', async () => {
    await open(new FakeHost());
    type(/^Length/, '1,92 m');
    expect(await screen.findByText(/1\.920 \u00d7 1\.200 m, 2\.304 m\u00b2/)).toBeTruthy();
    expect(screen.getByText('Understood as 1.92 m.')).toBeTruthy();
  });

  it('marks what is not fit, opens the group it is in, and goes to the first', async () => {
    const store = await open(new FakeHost());
    fireEvent.input(document.getElementById('field-gain')!, { target: { value: 'matt' } });
    press(/Build the run sheet/);
    expect(await screen.findByText(/Screen gain: it must be a number/)).toBeTruthy();
    expect(document.getElementById('field-gain')!.closest('details')!.open).toBe(true);
    expect(screen.getByText('3 fields need another look.')).toBeTruthy();
    await waitFor(() => expect(document.activeElement?.id).toBe('field-projector'));
    expect(document.activeElement?.getAttribute('aria-invalid')).toBe('true');
    expect(newRunOf(store).built.value).toBe('');
  });

  it('builds the sheet, says which, and shows it', async () => {
    const host = new FakeHost();
    await open(host);
    type(/^Projector/, 'Branch 7');
    type(/^Length/, '1.6');
    press(/Build the run sheet/);
    expect(await screen.findByText(/Built the sheet \u201cRun Branch 7\u201d/)).toBeTruthy();
    expect(await screen.findByText('0 of 36 readings')).toBeTruthy();
    expect(host.sheets.has('Run Branch 7')).toBe(true);
  });
});

describe('the result card', () => {
  it('shows white, colour and their ratio with a plain sentence', async () => {
    await open(await complete());
    expect(screen.getByText(/2604\.2/, { selector: '.big' })).toBeTruthy();
    expect(screen.getByText(/909\.4/, { selector: '.big' })).toBeTruthy();
    expect(screen.getByText(/Clearly below 1: light is added to white only/)).toBeTruthy();
    expect(screen.getByText(/all 18 agree/)).toBeTruthy();
  });

  it('names what is missing and over range, and goes to the next', async () => {
    const host = await halfway();
    await open(host);
    expect(screen.getByText('31 of 36 readings')).toBeTruthy();
    expect(screen.getByText(/missing: middle right \(point 6\), bottom left \(point 7\)/)).toBeTruthy();
    expect(screen.getByText(/over range: middle centre \(point 5\)/)).toBeTruthy();
    press(/Go to blue, middle right \(point 6\)/);
    await waitFor(() => expect(host.selected).toHaveLength(1));
  });

  it('follows the sheet', async () => {
    const host = await halfway();
    await open(host);
    host.put(host.active, 'BlueReadings', [
      [28, 30, 28],
      [30, 33, 30],
      [28, 30, 28],
    ]);
    expect(await screen.findByText('36 of 36 readings')).toBeTruthy();
  });

  it('offers to refresh where the formulas show #NAME?', async () => {
    const host = await complete();
    putResult(host, 'WhiteLightOutput', { error: '#NAME?' });
    await open(host);
    press(/Refresh results/);
    expect(await screen.findByText(/formulas entered again/)).toBeTruthy();
  });

  it('names results whose two computations differ', async () => {
    const host = await complete();
    host.put(host.active, 'Agreement', [['differ']]);
    await open(host);
    expect(screen.getByText(/1 result and plain formula differ: White light output/)).toBeTruthy();
  });

  it('folds a long remark behind its first sentence, and loses none of it', async () => {
    const host = await complete();
    const odd = (n: number) =>
      `The red reading at point ${n} has fewer than three significant digits (8.${n}).`;
    putResult(host, 'RedRemarks', [1, 2, 3, 4, 5].map(odd).join(' '));
    await open(host);
    const remark = screen.getByText(odd(1)).closest('details')!;
    expect(remark.textContent).toContain(odd(5));
  });
});

describe('pasting', () => {
  const paste = (text: string) => {
    fireEvent.change(screen.getByLabelText('Into'), { target: { value: 'WhiteReadings' } });
    fireEvent.input(screen.getByRole('textbox', { name: 'Readings', hidden: true }), {
      target: { value: text },
    });
  };
  const write = () => screen.getByRole('button', { name: /^Write/, hidden: true });

  it('previews the block as it lies on the screen and writes it', async () => {
    const host = await runHost();
    await open(host);
    paste('248\n251\n249\n255\nover\n257\n246\n250\n247');
    const rows = within(await screen.findByRole('table', { name: 'white', hidden: true })).getAllByRole(
      'row',
      { hidden: true },
    );
    expect(rows.map((row) => row.textContent)).toEqual(['248251249', '255over257', '246250247']);
    expect(write().textContent).toBe('Write 9 readings');
    fireEvent.click(write());
    expect(await screen.findByText(`9 cells written to \u201c${host.active}\u201d.`)).toBeTruthy();
  });

  it('refuses with words and writes nothing', async () => {
    const host = await runHost();
    await open(host);
    paste('248\tabc\t249\n255\t262\t257\n246\t250\t247');
    expect(await screen.findByText(/Row 1, column 2, white reading at top centre/)).toBeTruthy();
    expect(write().getAttribute('aria-disabled')).toBe('true');
    fireEvent.click(write());
    expect(host.calls.some((call) => call.startsWith('write'))).toBe(false);
  });

  it('shows a locked cell\u2019s refusal with its remedy', async () => {
    const host = await runHost();
    const store = await open(host);
    host.failNext(
      'write',
      new HostError('protected', 'The cells are locked.', 'Choose a field of readings.', 'AccessDenied'),
    );
    paste('248\n251\n249\n255\n262\n257\n246\n250\n247');
    await waitFor(() => expect(pasteOf(store).isReady.value).toBe(true));
    fireEvent.click(write());
    const alert = await screen.findByRole('alert');
    expect(alert.textContent).toContain('The cells are locked.');
    expect(alert.textContent).toContain('Choose a field of readings.');
    expect(alert.textContent).toContain('AccessDenied');
    press(/^Close$/);
    await waitFor(() => expect(screen.queryByRole('alert')).toBeNull());
  });
});

/** WCAG 2.2 A and AA as axe-core tests them; colour contrast needs a real browser and is left to one. */
describe('accessibility', () => {
  const scenes: readonly (readonly [string, () => Promise<FakeHost>, (store: Store) => unknown])[] = [
    ['an empty workbook', async () => new FakeHost(), () => undefined],
    ['a form with errors', async () => new FakeHost(), (store) => newRunOf(store).build()],
    ['a run half-way', halfway, () => undefined],
    ['a complete run', complete, () => undefined],
    [
      'a block with problems and questions',
      halfway,
      (store) => {
        pasteOf(store).choose('WhiteReadings');
        pasteOf(store).type('1.234\t251\t1\n248\t260 fc\tabc\n240\tover\t');
      },
    ],
    ['the functions', async () => new FakeHost(), (store) => store.open('functions')],
    [
      'a trouble',
      complete,
      (store) =>
        store.troubles.attempt('Testing', () => Promise.reject(new HostError('busy', 'Busy.', 'Wait.', 'x'))),
    ],
  ];
  it.each(scenes)('has no violation: %s', async (_, host, act) => {
    const store = await open(await host());
    await act(store);
    await unfold();
    const { violations } = await axe.run(document.body, {
      rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
    });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual(
      [],
    );
  });
});
