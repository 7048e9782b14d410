import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { needPlan } from '../../../src/sheets/need';
import type { Plan } from '../../../src/sheets/plan';
import { keepTemplate, keptTemplates } from '../../../src/template/kept';
import { readTemplate } from '../../../src/template/read';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { templateOf } from '../../template/built';
import { FULL, SMALL } from '../../template/examples';
import { FakeHost } from '../fakehost';

// The step's code is fetched when it is opened, and a machine may be busy.
configure({ asyncUtilTimeout: 30_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  for (const store of stores.splice(0)) store.stop();
});

/** A program that builds each sheet only when it is let. */
class SlowHost extends FakeHost {
  private waiting: (() => void)[] = [];
  override async build(plan: Plan): Promise<{ sheet: string }> {
    await new Promise<void>((resolve) => this.waiting.push(resolve));
    return super.build(plan);
  }
  /** Lets the sheet that waits be built. */
  async letOne(): Promise<void> {
    await waitFor(() => expect(this.waiting.length).toBeGreaterThan(0));
    this.waiting.shift()!();
  }
}

async function open<T extends FakeHost>(host: T): Promise<T> {
  let next = 0;
  const store = createStore(host, { today: '2026-11-25', makeId: () => `tmpl${next++}` });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('templates');
  await screen.findByRole('heading', { name: 'Save the set-up as a template' });
  return host;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const byId = (id: string) => document.getElementById(id) as HTMLInputElement;
const type = (id: string, text: string) => fireEvent.input(byId(id), { target: { value: text } });
const pick = (id: string, value: string) => fireEvent.change(byId(id), { target: { value } });
const tick = (id: string) => fireEvent.click(byId(id));
const unfold = () => {
  for (const details of document.querySelectorAll('details')) details.open = true;
};
const titles = (host: FakeHost) =>
  keptTemplates(host.names).map(({ read }) => (read.ok ? read.template.title : read.problems[0]));
const keeps = <T extends FakeHost>(host: T, file = SMALL, id = 'aaaa'): T => {
  host.names = [...host.names, ...keepTemplate(id, templateOf(file), []).set];
  return host;
};

/** The set-up of an invented reading room in the other steps. */
async function setUp(): Promise<void> {
  stores.at(-1)!.open('need');
  await screen.findByRole('heading', { name: 'Room 1' });
  type('need-1-room', 'Reading room 3 (invented)');
  type('need-1-width', '2');
  type('need-1-height', '1,25');
  type('need-1-ambient', '50');
  type('need-1-ageing', '60');
  stores.at(-1)!.open('run');
  await waitFor(() => expect(byId('field-meterName')).toBeTruthy());
  type('field-meterName', 'Meter 3 (invented)');
  stores.at(-1)!.open('templates');
  await screen.findByRole('heading', { name: 'Save the set-up as a template' });
  unfold();
}

describe('saving the set-up as a template', () => {
  it('keeps rooms, meter and the choice of sheets in the workbook', async () => {
    const host = await open(new FakeHost());
    await setUp();
    expect(screen.getByText(/Need: 1 room with their reserves/)).toBeTruthy();
    type('templates-title', 'Bid 7 (invented)');
    type('templates-note', 'First try');
    tick('templates-certificates');
    press(/^Save the template$/);
    expect(await screen.findByText('“Bid 7 (invented)” is kept in this workbook.')).toBeTruthy();
    const [kept] = keptTemplates(host.names);
    expect(kept!.read.ok && kept!.read.template).toMatchObject({
      title: 'Bid 7 (invented)',
      note: 'First try',
      rooms: [{ room: 'Reading room 3 (invented)', width: 2, height: 1.25, ambient: 50, ageing: 0.6 }],
      meter: { name: 'Meter 3 (invented)' },
      decision: { leastPart: 0.8 },
      use: { years: 5, hoursPerYear: 1000 },
      sheets: {
        need: {},
        offers: { lines: 10 },
        runs: { for: 'rooms', rated: 'chosen offer' },
        certificates: true,
      },
    });
    expect(await screen.findByRole('heading', { name: 'Bid 7 (invented)', level: 3 })).toBeTruthy();
    expect(host.sheets.size).toBe(0);
  });

  it('says what is in the way, and saves nothing', async () => {
    const host = await open(new FakeHost());
    await setUp();
    pick('templates-runs', 'list');
    await waitFor(() => expect(byId('templates-units')).toBeTruthy());
    type('templates-lines', '0');
    press(/^Save the template$/);
    expect(await screen.findAllByText('The template needs a title.')).toHaveLength(2);
    expect(screen.getAllByText('List at least one unit, one a line.').length).toBeGreaterThan(0);
    expect(screen.getAllByText(/Number of lines: it must be at least 1/).length).toBeGreaterThan(0);
    stores.at(-1)!.open('need');
    await screen.findByRole('heading', { name: /Reading room 3/ });
    type('need-1-width', 'wide');
    stores.at(-1)!.open('templates');
    unfold();
    expect(await screen.findByText('Need: one room needs another look there.')).toBeTruthy();
    expect(host.names).toEqual([]);
  });

  it('shows only what applies: without offers nothing is linked to them', async () => {
    await open(new FakeHost());
    await setUp();
    expect(byId('templates-rated')).toBeTruthy();
    tick('templates-offers');
    await waitFor(() => expect(byId('templates-rated')).toBeNull());
    expect(screen.getByText(/^Acceptance of the lot, limits linked/)).toBeTruthy();
    tick('templates-need');
    await waitFor(() => expect(byId('templates-acceptance')).toBeNull());
    pick('templates-runs', 'none');
    await waitFor(() => expect(byId('templates-comparison')).toBeNull());
  });

  it('replaces the template of the same title, and touches no sheet that was built', async () => {
    const host = await open(keeps(new FakeHost(), { ...SMALL, title: 'Bid 7' }));
    await screen.findByRole('button', { name: /^Build its sheets … of Bid 7$/ });
    press(/^Build its sheets … of Bid 7$/);
    press(/^Build the \d sheets$/);
    await screen.findByText(/^Built 6 sheets/);
    const before = structuredClone([...host.sheets]);
    await setUp();
    type('templates-title', 'bid 7');
    press(/^Replace the template “bid 7”$/);
    expect(await screen.findByText(/“bid 7” was replaced\. Sheets built from it earlier stay/)).toBeTruthy();
    expect(titles(host)).toEqual(['bid 7']);
    await screen.findByRole('heading', { name: 'bid 7', level: 3 });
    press(/^Delete bid 7$/);
    press(/^Yes, delete it$/);
    await screen.findByText(/is deleted\. Sheets built from it stay\./);
    // The log is the only sheet that was written since.
    const sheets = [...host.sheets].filter(([name]) => name !== 'Log');
    expect(sheets).toEqual(before.filter(([name]) => name !== 'Log'));
  });
});

describe('the templates of a workbook', () => {
  it('are renamed, but not to a title that is taken', async () => {
    const host = await open(keeps(keeps(new FakeHost()), FULL, 'bbbb'));
    await screen.findByRole('heading', { name: 'Network, phase 2 (invented)' });
    press(/^Rename Reading rooms/);
    const title = screen.getByLabelText('New title');
    fireEvent.input(title, { target: { value: 'NETWORK, phase 2 (invented)' } });
    press(/^Rename it$/);
    expect(
      await screen.findByText(/There is a template “NETWORK, phase 2 \(invented\)” already/),
    ).toBeTruthy();
    fireEvent.input(title, { target: { value: 'x'.repeat(81) } });
    press(/^Rename it$/);
    expect(await screen.findByText(/title: it must be a text of 1 to 80 characters/)).toBeTruthy();
    fireEvent.input(title, { target: { value: '=1+1' } });
    press(/^Rename it$/);
    expect(await screen.findByText('It is called “=1+1” now.')).toBeTruthy();
    expect(titles(host)).toEqual(['=1+1', 'Network, phase 2 (invented)']);
  });

  it('are exported as a file that is read again, and as text', async () => {
    const saved: { name: string; text: Promise<string> }[] = [];
    vi.stubGlobal(
      'URL',
      Object.assign(Object.create(URL), {
        createObjectURL: (blob: Blob) => {
          saved.push({ name: '', text: blob.text() });
          return 'blob:x';
        },
        revokeObjectURL: () => undefined,
      }),
    );
    const clicked = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
      this: HTMLAnchorElement,
    ) {
      saved.at(-1)!.name = this.download;
    });
    await open(keeps(new FakeHost(), FULL));
    await screen.findByRole('heading', { name: 'Network, phase 2 (invented)' });
    press(/^Export Network/);
    press(/^Save the file$/);
    expect(saved[0]!.name).toBe('network-phase-2-invented.light-template.json');
    const read = readTemplate(await saved[0]!.text);
    expect(read).toEqual({ ok: true, template: templateOf(FULL) });
    clicked.mockRestore();
  });

  it('are deleted only after a second word', async () => {
    const host = await open(keeps(new FakeHost()));
    await screen.findByRole('heading', { name: /Reading rooms/ });
    press(/^Delete Reading rooms/);
    expect(screen.getByText(/Sheets that were built from it stay/)).toBeTruthy();
    press(/^No, keep it$/);
    expect(titles(host)).toEqual(['Reading rooms (invented)']);
    press(/^Delete Reading rooms/);
    press(/^Yes, delete it$/);
    expect(await screen.findByText(/^No template yet/)).toBeTruthy();
    expect(host.names).toEqual([]);
  });

  it('that are damaged say so and can be deleted', async () => {
    const host = new FakeHost();
    host.names = [{ name: 'LightTemplate_bad1', refersTo: '=Sheet1!$A$1', hidden: true }];
    await open(host);
    expect(await screen.findByText('What the workbook keeps of this template is damaged.')).toBeTruthy();
    expect(screen.queryByRole('button', { name: /Build its sheets/ })).toBeNull();
    press(/^Delete A template that cannot be read$/);
    press(/^Yes, delete it$/);
    await waitFor(() => expect(host.names).toEqual([]));
  });
});

describe('importing a template', () => {
  const paste = async (text: string) => {
    unfold();
    type('templates-paste', text);
    await Promise.resolve();
  };

  it('tells what would be built before anything is', async () => {
    const host = await open(new FakeHost());
    await paste(JSON.stringify(FULL));
    const card = (await screen.findByRole('heading', { name: 'Network, phase 2 (invented)' })).parentElement!;
    expect(within(card).getByText(/12 sheets would be built/)).toBeTruthy();
    expect(within(card).getByText('Need of 1 room')).toBeTruthy();
    expect(within(card).getByText(/asked figures linked to the need/)).toBeTruthy();
    expect(within(card).getByText(/Acceptance: left out, since the serials/)).toBeTruthy();
    expect(host.sheets.size).toBe(0);
    press(/^Keep it in this workbook$/);
    expect(await screen.findByText('“Network, phase 2 (invented)” is kept in this workbook.')).toBeTruthy();
    expect(titles(host)).toEqual(['Network, phase 2 (invented)']);
    await waitFor(() => expect(byId('templates-paste').value).toBe(''));
  });

  it('refuses what is none, by its path, and offers nothing to do with it', async () => {
    const host = await open(new FakeHost());
    await paste(
      JSON.stringify({
        ...SMALL,
        rooms: [{ room: '<img src=x onerror=alert(1)>', width: 'wide', height: 1 }],
      }),
    );
    expect(
      await screen.findByText('rooms[0].width: it must be a number from 0.1 to 60; it is "wide".'),
    ).toBeTruthy();
    await paste('{"format":"light-template","version":1,"__proto__":{"x":1}}');
    expect(await screen.findByText(/__proto__: a field of this name is not allowed/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: /Keep it/ })).toBeNull();
    expect(host.names).toEqual([]);
  });

  it('shows what a stranger wrote as text', async () => {
    await open(new FakeHost());
    await paste(
      JSON.stringify({ ...SMALL, title: '<b onclick="x()">Free</b>', note: '=HYPERLINK("http://x")' }),
    );
    expect(await screen.findByRole('heading', { name: '<b onclick="x()">Free</b>' })).toBeTruthy();
    expect(screen.getByText('=HYPERLINK("http://x")')).toBeTruthy();
    expect(document.querySelector('b[onclick]')).toBeNull();
  });

  it('reads a file, and says why one cannot be read', async () => {
    await open(new FakeHost());
    unfold();
    const choose = (content: BlobPart, size?: number) => {
      const file = new File([content], 'bid.json');
      if (size !== undefined) Object.defineProperty(file, 'size', { value: size });
      fireEvent.change(byId('templates-file'), { target: { files: [file] } });
    };
    choose(JSON.stringify(SMALL));
    expect(await screen.findByRole('heading', { name: 'Reading rooms (invented)' })).toBeTruthy();
    choose(new Uint8Array([0xff, 0xfe, 0x00]));
    expect(await screen.findByText(/not a text in UTF-8/)).toBeTruthy();
    choose('x', 5_000_000);
    expect(await screen.findByText(/5000000 bytes: no template is that large/)).toBeTruthy();
    choose('');
    expect(await screen.findByText('“bid.json” is empty.')).toBeTruthy();
  });
});

describe('building the sheets of a template', () => {
  const begin = async () => {
    await screen.findByRole('heading', { name: 'Reading rooms (invented)' });
    press(/^Build its sheets … of Reading rooms/);
    await screen.findByText(/6 sheets would be built/);
    press(/^Build the 6 sheets$/);
  };

  it('builds them one after the other, linked by the names they got', async () => {
    const host = keeps(new FakeHost());
    // A sheet of that name is there already, so the new one gets a number.
    await host.build(needPlan({ rooms: [], spare: 1 }, 'other1'));
    await open(host);
    await begin();
    expect(
      await screen.findByText(
        'Built 6 sheets: “Need 2”, “Offers”, “Run Reading room 3 (invented)”, “Run =1+1”, “Comparison”, “Overview”.',
      ),
    ).toBeTruthy();
    const [offers] = (await host.book({ sheets: ['Offers'] })).sheets;
    const formulas = Object.values(offers!.cells).flatMap(({ formula }) => formula ?? []);
    expect(formulas.some((formula) => formula.includes("'Need 2'!"))).toBe(true);
    expect(formulas.some((formula) => formula.includes("'Need'!"))).toBe(false);
    expect(host.selected.at(-1)).toMatch(/^Need 2!/);
  });

  it('tells how far it is, and stops after the sheet that is being built', async () => {
    const host = await open(keeps(new SlowHost()));
    await begin();
    expect(await screen.findByText('Sheet 1 of 6: Need of 2 rooms')).toBeTruthy();
    await host.letOne();
    expect(await screen.findByText('Sheet 2 of 6: Offers, 3 lines to be filled in')).toBeTruthy();
    expect((screen.getByLabelText('sheets built') as HTMLProgressElement).value).toBe(1);
    press(/^Stop$/);
    expect(await screen.findByText('Stopping after this sheet')).toBeTruthy();
    await host.letOne();
    expect(
      await screen.findByText(
        'Stopped after 2 of 6 sheets: “Need”, “Offers”. These are complete and stay; the others were not begun.',
      ),
    ).toBeTruthy();
    expect([...host.sheets.keys()].filter((name) => name !== 'Log')).toEqual(['Need', 'Offers']);
  });

  it('keeps what was built when the program refuses the next sheet', async () => {
    const host = await open(keeps(new SlowHost()));
    await begin();
    await host.letOne();
    await screen.findByText(/^Sheet 2 of 6/);
    host.failNext('build', new HostError('protected', 'The workbook is protected.', 'Unprotect it.'));
    await host.letOne();
    expect(await screen.findByText('The workbook is protected.')).toBeTruthy();
    expect(
      await screen.findByText(
        'Broken off after 1 of 6 sheets: “Need”. This one is complete and stays; the others were not begun.',
      ),
    ).toBeTruthy();
  });

  it('asks for the lot where the template needs it, and takes its label into the names', async () => {
    const host = await open(
      keeps(new FakeHost(), { ...FULL, sheets: { offers: {}, acceptance: {}, overview: false } }),
    );
    await screen.findByRole('heading', { name: 'Network, phase 2 (invented)' });
    press(/^Build its sheets … of Network/);
    expect(await screen.findByText(/Acceptance: left out, since the serials/)).toBeTruthy();
    type('templates-serials', Array.from({ length: 12 }, (_, i) => `BIB-${i + 1}`).join('\n'));
    type('templates-seed', '4 2');
    type('templates-label', 'Bid 7');
    // Lots of 9 to 15: letter B, AQL 2.5: the arrow leads to 5 units (ISO 2859-1, tables 1 and 2-A).
    expect(await screen.findByText('Acceptance of 12 units, 5 drawn')).toBeTruthy();
    // A serial that was cut would be drawn by the ticket of another.
    type('templates-serials', Array.from({ length: 12 }, (_, i) => `${'x'.repeat(80)}${i + 1}`).join('\n'));
    expect(await screen.findByText(/^A serial has at most 80 characters; “x{40}…” has 81\.$/)).toBeTruthy();
    press(/^Build the 2 sheets$/);
    expect(
      await screen.findByText(/^“Serials of every unit.*needs another look. Nothing was built\.$/),
    ).toBeTruthy();
    expect(host.sheets.has('Bid 7 Offers')).toBe(false);
    type('templates-serials', Array.from({ length: 12 }, (_, i) => `BIB-${i + 1}`).join('\n'));
    press(/^Build the 2 sheets$/);
    expect(await screen.findByText(/^Built 2 sheets: “Bid 7 Offers”, “Bid 7 Acceptance”/)).toBeTruthy();
    expect(host.sheets.has('Bid 7 Acceptance')).toBe(true);
  });
});

it('has no accessibility fault', async () => {
  await open(keeps(new FakeHost(), FULL));
  await setUp();
  press(/^Rename Network/);
  press(/^Build its sheets … of Network/);
  unfold();
  type('templates-paste', JSON.stringify(SMALL));
  await screen.findByRole('heading', { name: 'Reading rooms (invented)' });
  press(/^Save the template$/);
  const { violations } = await axe.run(document.body, { rules: { 'color-contrast': { enabled: false } } });
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});
