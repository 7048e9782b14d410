import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { acceptancePlan } from '../../../src/sheets/acceptance';
import { defaultRoom, needPlan } from '../../../src/sheets/need';
import { offersPlan } from '../../../src/sheets/offers';
import { runPlan } from '../../../src/sheets/run';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { LOT, understandLot } from '../../../taskpane/accept/form';
import { App } from '../../../taskpane/app';
import { startOf } from '../../../taskpane/form/read';
import { goneOf, isCurrent } from '../../../taskpane/overview/rows';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';

// The step's code is fetched when it is opened, and a machine may be busy.
configure({ asyncUtilTimeout: 5000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const run = (projector: string, id: string) =>
  runPlan({ ...defaultRunSetup(), projector, colour: 'none', ambient: 'none', black: false }, id);

/** A workbook with a need of two rooms and a run half-way. */
async function open(host = new FakeHost()): Promise<FakeHost> {
  let next = 0;
  const store = createStore(host, { today: '2026-11-25', makeId: () => `over000${next++}` });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  await screen.findByRole('heading', {
    name: host.sheets.size > 0 ? 'In this workbook' : 'What do you want to find out?',
  });
  return host;
}
async function filled(): Promise<FakeHost> {
  const host = new FakeHost();
  const rooms = [defaultRoom('Reading room 3 (invented)'), defaultRoom('Hall (invented)')];
  await host.build(needPlan({ rooms, spare: 1 }, 'need1'));
  await host.build(run('Unit A (invented)', 'runa1'));
  host.put('Run Unit A (invented)', 'WhiteReadings', [[812, 805, null]]);
  return host;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const listed = (host: FakeHost, sheet = 'Overview') =>
  host.read(sheet).then(({ values }) => values.SheetNames!.values.flat().filter(Boolean));

describe('the overview step', () => {
  it('asks what to find out where there is nothing yet', async () => {
    await open();
    for (const question of [/How bright/, /brighter/, /How much light/, /offer/, /deliver/, /still hold/])
      expect(screen.getByRole('button', { name: question })).toBeTruthy();
  });

  it('lists every sheet with its state, and goes there', async () => {
    const host = await open(await filled());
    // Nine white readings and the last one are to come; two are there.
    expect(await screen.findByText('in progress, 2 of 10')).toBeTruthy();
    expect(screen.getByText('2 rooms')).toBeTruthy();
    expect(screen.getByText('2 sheets: 1 in progress, 1 empty.')).toBeTruthy();
    host.put('Run Unit A (invented)', 'WhiteLightOutputPlain', [[1234.5]], '1,234.5');
    host.put('Run Unit A (invented)', 'WhiteExpandedPlain', [[56.7]], '56.7');
    host.put('Run Unit A (invented)', 'WhiteVerdictPlain', [['conditional pass']]);
    // GUM 7.2.6: two digits of U, the value to the same place.
    expect(await screen.findByText('1235 ± 57, conditional pass')).toBeTruthy();
    press(/^Go to sheet Run Unit A \(invented\)$/);
    await waitFor(() => expect(host.selected).toEqual(['Run Unit A (invented)!A1']));
  });

  it('says what to do next, and leads there in one press', async () => {
    const host = await open(await filled());
    fireEvent.click(
      await screen.findByRole('button', { name: 'Go on with “Run Unit A (invented)”: 2 of 10 are there' }),
    );
    await waitFor(() => expect(host.selected).toEqual(['Run Unit A (invented)!A1']));
    await waitFor(() =>
      expect(screen.getByRole('button', { name: 'This sheet' }).getAttribute('aria-current')).toBe('page'),
    );
  });

  it('shows a rejected lot as a failure, however complete it is, and asks why', async () => {
    const host = new FakeHost();
    const form = { ...startOf(LOT), seed: '1', leastWhite: '2000', serials: 'BIB-001\nBIB-002' };
    const drawn = understandLot(form, '2026-11-25');
    if (!drawn?.ok) throw new Error('nothing drawn');
    const { sheet } = await host.build(acceptancePlan(drawn.value, 'acc1'));
    host.put(sheet, 'Inspected', [[20]]);
    host.put(sheet, 'SampleSize', [[20]]);
    host.put(sheet, 'Nonconforming', [[2]]);
    host.put(sheet, 'LotVerdict', [['rejected']]);
    await open(host);
    const state = await screen.findByText('with a failure, complete');
    expect(state.dataset.tone).toBe('bad');
    expect(screen.getByText('1 sheet: 1 with a failure.')).toBeTruthy();
    expect(screen.getByRole('button', { name: `See why “${sheet}” is rejected` })).toBeTruthy();
  });

  it('tells how many offers meet the need, not the word in the first line', async () => {
    const host = await filled();
    const { sheet } = await host.build(offersPlan({ asked: {}, use: {}, offers: [], spare: 4 }, 'offers1'));
    host.put(sheet, 'Bidders', [['One (invented)'], ['Two (invented)'], ['Three (invented)'], [null]]);
    host.put(sheet, 'OfferState', [['meets'], ['short'], ['meets'], ['']]);
    host.put('Need', 'LargestWhite', [[12345]], '12,345');
    await open(host);
    const line = (await screen.findByText('Offers that meet the need')).parentElement!;
    expect(line.textContent).toBe('Offers that meet the need2');
    // Digits in groups of three by a thin space, never by a point or comma: SI Brochure 5.4.4 (from memory).
    const white = screen.getByText('Largest white to ask for, lm').parentElement!;
    expect(white.textContent).toMatch(/lm12\u202f345$/);
  });

  it('builds the sheet, and keeps it true when sheets come, are renamed and go, whatever step is open', async () => {
    const host = await open(await filled());
    await screen.findByText('2 rooms');
    press(/^Build the overview sheet$/);
    expect(await screen.findByText(/Built the sheet “Overview”/)).toBeTruthy();
    expect(await listed(host)).toEqual(['Need', 'Run Unit A (invented)']);
    stores.at(-1)!.open('need');
    await host.build(run('=1+1', 'runb1'));
    await waitFor(async () =>
      expect(await listed(host)).toEqual(['Need', 'Run Unit A (invented)', 'Run =1+1']),
    );
    host.rename('Run Unit A (invented)', 'Tuesday');
    await waitFor(async () => expect(await listed(host)).toEqual(['Need', 'Tuesday', 'Run =1+1']));
    host.remove('Tuesday');
    await waitFor(async () => expect(await listed(host)).toEqual(['Need', 'Run =1+1', 'Tuesday']));
    const { values } = await host.read('Overview');
    expect(values.States!.values.flat().at(-1)).toBe('gone');
    stores.at(-1)!.open('home');
    expect(await screen.findByText(/Listed there as gone: “Tuesday”/)).toBeTruthy();
    press(/^Take out what is gone$/);
    await screen.findByText('Sheets that are gone are no longer listed.');
    expect(await listed(host)).toEqual(['Need', 'Run =1+1']);
  });

  it('writes only when sheets or seals changed, not at every key', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    host.put('Run Unit A (invented)', 'WhiteReadings', [[812, 805, 790]]);
    await screen.findByText('in progress, 3 of 10');
    expect(host.calls.filter((call) => call.startsWith('rewrite'))).toEqual([]);
    await host.editNames([
      { sheet: 'Need', remove: [], set: [{ name: 'LightSeal', refersTo: '="x"', hidden: true }] },
    ]);
    await waitFor(() => expect(host.calls.filter((call) => call.startsWith('rewrite'))).toHaveLength(1));
    expect(await screen.findByText(/^sealed at 0 of 2/)).toBeTruthy();
  });

  it('leaves a sealed overview as it stands', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    await host.editNames([
      { sheet: 'Overview', remove: [], set: [{ name: 'LightSeal', refersTo: '="x"', hidden: true }] },
    ]);
    host.remove('Need');
    await screen.findByText(/Listed there as gone: “Need”/);
    expect(await listed(host)).toEqual(['Need', 'Run Unit A (invented)']);
    press(/^Bring “Overview” up to date$/);
    expect(await screen.findByText(/stays as it stands/)).toBeTruthy();
  });

  it('says why it could not bring the sheet up to date, and does so at the next chance', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    host.failNext('rewrite', new HostError('protected', 'The workbook is protected.', 'Unprotect it.'));
    host.remove('Need');
    expect(await screen.findByText('The workbook is protected.')).toBeTruthy();
    await host.build(run('Unit B (invented)', 'runb1'));
    await waitFor(async () => expect(await listed(host)).toContain('Run Unit B (invented)'));
    await waitFor(() => expect(screen.queryByText('The workbook is protected.')).toBeNull());
  });

  it('is finished by the next pane where one was closed in the middle, with the lines of what is gone', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    // The pane is closed while the sheet is half written: no answer comes, and its lines are gone.
    const rewrite = host.rewrite.bind(host);
    let isBroken = false;
    host.rewrite = async (sheet, plan) => {
      if (isBroken) return rewrite(sheet, plan);
      isBroken = true;
      host.put(sheet, 'Marks', [[null], [null]]);
      await new Promise(() => undefined);
    };
    host.remove('Need');
    await waitFor(() => expect(isBroken).toBe(true));
    cleanup();
    for (const store of stores.splice(0)) store.stop();
    await open(host);
    await waitFor(async () => expect(await listed(host)).toEqual(['Run Unit A (invented)', 'Need']));
    await waitFor(async () => {
      const [sheet] = (await host.book({ sheets: ['Overview'] })).sheets;
      expect(sheet!.names.filter(({ name }) => name.startsWith('LightUnfinished'))).toEqual([]);
    });
  });

  it('tries again by itself when somebody was typing', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    host.failNext('rewrite', new HostError('editing', 'A cell is being edited.', 'Press Enter.'));
    host.remove('Need');
    await waitFor(() => expect(host.calls).toContain('rewrite Overview'));
    host.change();
    await waitFor(async () => expect(await listed(host)).toEqual(['Run Unit A (invented)', 'Need']));
    expect(screen.queryByText('A cell is being edited.')).toBeNull();
  });

  it('has no accessibility fault', async () => {
    const host = await open(await filled());
    press(/^Build the overview sheet$/);
    await screen.findByText(/Built the sheet “Overview”/);
    host.remove('Need');
    await screen.findByText(/Listed there as gone/);
    const { violations } = await axe.run(document.body, { rules: { 'color-contrast': { enabled: false } } });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  });
});

describe('what is gone', () => {
  const row = (sheet: string, id: string) => ({ sheet, id, kind: 'run', isSealed: false });
  const known = (sheet: string, id: string) => ({ sheet, id, kind: 'run', version: 1 }) as const;

  it('a renamed sheet is not gone; of two copies the one that is missing is', () => {
    expect(goneOf([row('Run', 'a')], [known('Tuesday', 'a')])).toEqual([]);
    expect(goneOf([row('Run', 'a'), row('Run (2)', 'a')], [known('Run (2)', 'a')])).toMatchObject([
      { sheet: 'Run' },
    ]);
    expect(goneOf([row('Run', 'a')], [])).toMatchObject([{ sheet: 'Run' }]);
  });

  it('a sheet that came back is gone no longer', () => {
    const rows = [row('B', 'b'), row('A', 'a')];
    expect(isCurrent(rows, [known('B', 'b')])).toBe(true);
    expect(isCurrent(rows, [known('A', 'a'), known('B', 'b')])).toBe(false);
    expect(goneOf(rows, [known('A', 'a'), known('B', 'b')])).toEqual([]);
  });
});
