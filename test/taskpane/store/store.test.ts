// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { offersPlan } from '../../../src/sheets/offers';
import { memoryPreferences } from '../../../taskpane/preferences';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { complete, halfway, runHost, WHITE } from '../scenes';

const TODAY = '2026-11-25';

async function storeOn(host: FakeHost, preferences = memoryPreferences()): Promise<Store> {
  const store = createStore(host, { today: TODAY, makeId: () => 'newrun01', preferences });
  await store.start();
  return store;
}

function fill(store: Store): void {
  store.newRun.form.type('projector', 'Branch 7');
  store.newRun.form.type('length', '1,6');
}

describe('building a run', () => {
  it('says which sheet was built, and shows it', async () => {
    const store = await storeOn(new FakeHost());
    fill(store);
    expect(await store.newRun.build()).toBe(true);
    expect(store.newRun.built.value).toBe('Run Branch 7');
    expect(store.page.value).toBe('sheet');
    expect(store.front.arrival.value).toContain('Run Branch 7');
    expect(store.run.value?.sheet).toBe('Run Branch 7');
    expect(store.newRun.form.texts.value.projector).toBe('Branch 7');
  });

  it('links rated figures to the chosen offer, as long as its sheet is there', async () => {
    const host = new FakeHost();
    await host.build(offersPlan({ asked: {}, use: {}, offers: [], spare: 1 }, 'offers1'));
    const store = await storeOn(host);
    fill(store);
    store.newRun.form.type('ratedWhite', '3000');
    expect(store.newRun.offers.value).toEqual(['Offers']);
    store.newRun.takeRatedFrom('Offers');
    expect(await store.newRun.build()).toBe(true);
    const cell = async (sheet: string) => {
      const [book] = (await host.book({ sheets: [sheet] })).sheets;
      return book!.cells[(await host.read(sheet)).values.RatedWhite!.address]!;
    };
    const { address } = (await host.read('Offers')).values.ChosenWhite!;
    expect((await cell('Run Branch 7')).formula).toContain(
      `'Offers'!${address.replace(/([A-Z]+)(\d+)/, '$$$1$$$2')}`,
    );
    host.remove('Offers');
    await store.workbook.look();
    expect(store.newRun.ratedFrom.value).toBeUndefined();
    expect(await store.newRun.build()).toBe(true);
    expect(await cell('Run Branch 7 2')).toMatchObject({ value: 3000 });
  });

  it('gives a taken name a number', async () => {
    const store = await storeOn(new FakeHost());
    fill(store);
    await store.newRun.build();
    await store.newRun.build();
    expect(store.newRun.built.value).toBe('Run Branch 7 2');
  });

  it('asks the host for nothing while a field is not fit', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    expect(await store.newRun.build()).toBe(false);
    expect(host.calls.some((call) => call.startsWith('build'))).toBe(false);
    expect(store.newRun.form.unfit.value).toEqual(['projector', 'length']);
    expect(store.newRun.form.isShown('length')).toBe(true);
  });

  it('shows the host\u2019s refusal and keeps every word that was typed', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    fill(store);
    host.failNext(
      'build',
      new HostError('protected', 'The workbook is protected.', 'Unprotect it first.', 'AccessDenied'),
    );
    expect(await store.newRun.build()).toBe(false);
    expect(store.troubles.trouble.value).toEqual({
      message: 'The workbook is protected.',
      remedy: 'Unprotect it first.',
      detail: 'protected: AccessDenied',
    });
    expect(store.newRun.form.texts.value.projector).toBe('Branch 7');
    expect(store.page.value).not.toBe('sheet');
    expect(store.troubles.busy.value).toBe('');
  });

  it('does one thing at a time', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    fill(store);
    expect(await Promise.all([store.newRun.build(), store.newRun.build()])).toEqual([true, false]);
    expect(host.sheets.size).toBe(1);
  });

  it('remembers the meter and the place, not the measurement', async () => {
    const preferences = memoryPreferences();
    const first = await storeOn(new FakeHost(), preferences);
    fill(first);
    first.newRun.form.type('meterName', 'Meter 4');
    first.newRun.form.type('ratedWhite', '2500');
    await first.newRun.build();
    const { texts } = (await storeOn(new FakeHost(), preferences)).newRun.form;
    expect(texts.value).toMatchObject({
      meterName: 'Meter 4',
      projector: '',
      length: '',
      ratedWhite: '',
      date: TODAY,
    });
  });

  it('does not put remembered words over typed ones, nor anything that is no answer', async () => {
    const preferences = memoryPreferences();
    await preferences.set('setup', {
      place: 'old',
      meterUnit: 'candles',
      colour: 3,
      nonsense: 'x',
      projector: 'old',
    });
    const store = createStore(new FakeHost(), { today: TODAY, preferences });
    store.newRun.form.type('place', 'new');
    await store.start();
    expect(store.newRun.form.texts.value).toMatchObject({
      place: 'new',
      meterUnit: 'lx',
      colour: 'full fields',
      projector: '',
    });
  });
});

describe('while the sheet changes', () => {
  it('loses nothing that is being typed', async () => {
    const host = await halfway();
    const store = await storeOn(host);
    fill(store);
    store.paste.type('248\n251');
    host.put(host.active, 'WhiteReadings', WHITE);
    await store.workbook.look();
    expect(store.newRun.form.texts.value.projector).toBe('Branch 7');
    expect(store.paste.text.value).toBe('248\n251');
  });
});

describe('pasting', () => {
  const grid = '248\t251\t249\n255\tover\t257\n246\t\t247';

  it('writes what was shown, leaves empty cells as they are, and counts', async () => {
    const host = await runHost();
    host.put(host.active, 'WhiteReadings', [
      [1, 1, 1],
      [1, 1, 1],
      [1, 99, 1],
    ]);
    const store = await storeOn(host);
    store.paste.choose('WhiteReadings');
    store.paste.type(grid);
    expect(store.paste.replaced.value).toBe(9);
    await store.paste.write();
    expect(store.workbook.reading.value?.values.WhiteReadings?.values).toEqual([
      [248, 251, 249],
      [255, 'over', 257],
      [246, 99, 247],
    ]);
    expect(store.paste.report.value).toBe(`8 cells written to \u201c${host.active}\u201d.`);
    expect(store.paste.text.value).toBe('');
  });

  it('writes four blocks at once', async () => {
    const store = await storeOn(await runHost());
    store.paste.type(Array.from({ length: 36 }, (_, i) => 200 + i).join('\n'));
    expect(store.paste.chosen.value?.words).toBe('White, red, green and blue at once');
    await store.paste.write();
    expect(store.run.value).toMatchObject({ done: 36, of: 36 });
  });

  it('offers the patterns where colour is tiled, and never the cells sorted from them', async () => {
    const store = await storeOn(await runHost({ colour: 'tiled patterns' }));
    const words = store.paste.choices.value.map((choice) => choice.words);
    expect(words[0]).toBe('White, pattern A, pattern B and pattern C at once');
    expect(words).not.toContain('Red');
    expect(store.run.value?.of).toBe(36);
  });

  it('says what was written when the host stops half-way', async () => {
    const host = await runHost();
    const store = await storeOn(host);
    const write = host.write.bind(host);
    host.write = async (sheet, name, values) => {
      if (name === 'GreenReadings') throw new HostError('protected', 'The cells are locked.', 'Unlock them.');
      await write(sheet, name, values);
    };
    const text = Array.from({ length: 36 }, (_, i) => 200 + i).join('\n');
    store.paste.type(text);
    await store.paste.write();
    expect(store.troubles.trouble.value?.message).toBe('The cells are locked.');
    expect(store.paste.report.value).toBe(
      `18 cells written to \u201c${host.active}\u201d. Not written: green, blue.`,
    );
    expect(store.paste.text.value).toBe(text);
  });

  it('keeps what is typed while the program takes the readings before it', async () => {
    const store = await storeOn(await runHost());
    store.paste.choose('WhiteReadings');
    store.paste.type(grid);
    const writing = store.paste.write();
    store.paste.type('250');
    await writing;
    expect(store.paste.text.value).toBe('250');
    expect(store.paste.report.value).toMatch(/^8 cells written/);
  });

  it('keeps the answers that were given when the program refuses', async () => {
    const host = await runHost();
    const store = await storeOn(host);
    store.paste.choose('WhiteReadings');
    store.paste.type(grid.replace('251', '1'));
    store.paste.decide({ ones: 'over range' });
    host.failNext('write', new HostError('busy', 'The program is busy.', 'Wait a moment.'));
    await store.paste.write();
    expect(store.paste.isReady.value).toBe(true);
  });

  it('writes nothing while something is wrong or asked', async () => {
    const host = await runHost();
    const store = await storeOn(host);
    store.paste.choose('WhiteReadings');
    store.paste.type(grid.replace('251', 'abc'));
    await store.paste.write();
    store.paste.type(grid.replace('251', '1'));
    await store.paste.write();
    expect(host.calls.some((call) => call.startsWith('write'))).toBe(false);
    store.paste.decide({ ones: 'over range' });
    expect(store.paste.isReady.value).toBe(true);
  });
});

describe('the sheet itself', () => {
  it('selects the next missing reading', async () => {
    const host = await halfway();
    const store = await storeOn(host);
    const { next } = store.run.value!;
    expect(next?.place.words).toBe('middle right (point 6)');
    await store.goTo(next!.place.cell);
    expect(host.selected).toEqual([`${host.active}!${next!.place.cell}`]);
  });

  it('enters the formulas again', async () => {
    const host = await complete();
    const store = await storeOn(host);
    await store.refresh();
    expect(host.calls).toContain(`refresh ${host.active}`);
    expect(store.refreshed.value).toMatch(/^\d+ formulas entered again\.$/);
  });

  it('turns even a mistake of ours into words', async () => {
    const host = await complete();
    const store = await storeOn(host);
    host.failNext('refresh', new TypeError('x is undefined'));
    await store.refresh();
    expect(store.troubles.trouble.value?.message).toContain('unexpected');
    expect(store.troubles.trouble.value?.detail).toContain('x is undefined');
  });
});
