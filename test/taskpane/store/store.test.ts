// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { HostError } from '../../../src/excel/host';
import { offersPlan } from '../../../src/sheets/offers';
import { memoryPreferences } from '../../../taskpane/preferences';
import { newRunOf } from '../../../taskpane/run/newrun';
import { pasteOf } from '../../../taskpane/run/paste';
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
  newRunOf(store).form.type('projector', 'Branch 7');
  newRunOf(store).form.type('length', '1,6');
}

describe('building a run', () => {
  it('says which sheet was built, and shows it', async () => {
    const store = await storeOn(new FakeHost());
    fill(store);
    expect(await newRunOf(store).build()).toBe(true);
    expect(newRunOf(store).built.value).toBe('Run Branch 7');
    expect(store.page.value).toBe('sheet');
    expect(store.front.arrival.value).toContain('Run Branch 7');
    expect(store.run.value?.sheet).toBe('Run Branch 7');
    expect(newRunOf(store).form.texts.value.projector).toBe('Branch 7');
  });

  it('links rated figures to the chosen offer, as long as its sheet is there', async () => {
    const host = new FakeHost();
    await host.build(offersPlan({ asked: {}, use: {}, offers: [], spare: 1 }, 'offers1'));
    const store = await storeOn(host);
    fill(store);
    newRunOf(store).form.type('ratedWhite', '3000');
    expect(newRunOf(store).offers.value).toEqual(['Offers']);
    newRunOf(store).takeRatedFrom('Offers');
    expect(await newRunOf(store).build()).toBe(true);
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
    expect(newRunOf(store).ratedFrom.value).toBeUndefined();
    expect(await newRunOf(store).build()).toBe(true);
    expect(await cell('Run Branch 7 2')).toMatchObject({ value: 3000 });
  });

  it('gives a taken name a number', async () => {
    const store = await storeOn(new FakeHost());
    fill(store);
    await newRunOf(store).build();
    await newRunOf(store).build();
    expect(newRunOf(store).built.value).toBe('Run Branch 7 2');
  });

  it('asks the host for nothing while a field is not fit', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    expect(await newRunOf(store).build()).toBe(false);
    expect(host.calls.some((call) => call.startsWith('build'))).toBe(false);
    expect(newRunOf(store).form.unfit.value).toEqual(['projector', 'length']);
    expect(newRunOf(store).form.isShown('length')).toBe(true);
  });

  it('shows the host\u2019s refusal and keeps every word that was typed', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    fill(store);
    host.failNext(
      'build',
      new HostError('protected', 'The workbook is protected.', 'Unprotect it first.', 'AccessDenied'),
    );
    expect(await newRunOf(store).build()).toBe(false);
    expect(store.troubles.trouble.value).toEqual({
      message: 'The workbook is protected.',
      remedy: 'Unprotect it first.',
      detail: 'protected: AccessDenied',
    });
    expect(newRunOf(store).form.texts.value.projector).toBe('Branch 7');
    expect(store.page.value).not.toBe('sheet');
    expect(store.troubles.busy.value).toBe('');
  });

  it('does one thing at a time', async () => {
    const host = new FakeHost();
    const store = await storeOn(host);
    fill(store);
    expect(await Promise.all([newRunOf(store).build(), newRunOf(store).build()])).toEqual([true, false]);
    expect(host.sheets.size).toBe(1);
  });

  it('remembers the meter and the place, not the measurement', async () => {
    const preferences = memoryPreferences();
    const first = await storeOn(new FakeHost(), preferences);
    fill(first);
    newRunOf(first).form.type('meterName', 'Meter 4');
    newRunOf(first).form.type('ratedWhite', '2500');
    await newRunOf(first).build();
    const { texts } = newRunOf(await storeOn(new FakeHost(), preferences)).form;
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
    newRunOf(store).form.type('place', 'new');
    await store.start();
    expect(newRunOf(store).form.texts.value).toMatchObject({
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
    pasteOf(store).type('248\n251');
    host.put(host.active, 'WhiteReadings', WHITE);
    await store.workbook.look();
    expect(newRunOf(store).form.texts.value.projector).toBe('Branch 7');
    expect(pasteOf(store).text.value).toBe('248\n251');
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
    pasteOf(store).choose('WhiteReadings');
    pasteOf(store).type(grid);
    expect(pasteOf(store).replaced.value).toBe(9);
    await pasteOf(store).write();
    expect(store.workbook.reading.value?.values.WhiteReadings?.values).toEqual([
      [248, 251, 249],
      [255, 'over', 257],
      [246, 99, 247],
    ]);
    expect(pasteOf(store).report.value).toBe(`8 cells written to \u201c${host.active}\u201d.`);
    expect(pasteOf(store).text.value).toBe('');
  });

  it('writes four blocks at once', async () => {
    const store = await storeOn(await runHost());
    pasteOf(store).type(Array.from({ length: 36 }, (_, i) => 200 + i).join('\n'));
    expect(pasteOf(store).chosen.value?.words).toBe('White, red, green and blue at once');
    await pasteOf(store).write();
    expect(store.run.value).toMatchObject({ done: 36, of: 36 });
  });

  it('offers the patterns where colour is tiled, and never the cells sorted from them', async () => {
    const store = await storeOn(await runHost({ colour: 'tiled patterns' }));
    const words = pasteOf(store).choices.value.map((choice) => choice.words);
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
    pasteOf(store).type(text);
    await pasteOf(store).write();
    expect(store.troubles.trouble.value?.message).toBe('The cells are locked.');
    expect(pasteOf(store).report.value).toBe(
      `18 cells written to \u201c${host.active}\u201d. Not written: green, blue.`,
    );
    expect(pasteOf(store).text.value).toBe(text);
  });

  it('keeps what is typed while the program takes the readings before it', async () => {
    const store = await storeOn(await runHost());
    pasteOf(store).choose('WhiteReadings');
    pasteOf(store).type(grid);
    const writing = pasteOf(store).write();
    pasteOf(store).type('250');
    await writing;
    expect(pasteOf(store).text.value).toBe('250');
    expect(pasteOf(store).report.value).toMatch(/^8 cells written/);
  });

  it('keeps the answers that were given when the program refuses', async () => {
    const host = await runHost();
    const store = await storeOn(host);
    pasteOf(store).choose('WhiteReadings');
    pasteOf(store).type(grid.replace('251', '1'));
    pasteOf(store).decide({ ones: 'over range' });
    host.failNext('write', new HostError('busy', 'The program is busy.', 'Wait a moment.'));
    await pasteOf(store).write();
    expect(pasteOf(store).isReady.value).toBe(true);
  });

  it('writes nothing while something is wrong or asked', async () => {
    const host = await runHost();
    const store = await storeOn(host);
    pasteOf(store).choose('WhiteReadings');
    pasteOf(store).type(grid.replace('251', 'abc'));
    await pasteOf(store).write();
    pasteOf(store).type(grid.replace('251', '1'));
    await pasteOf(store).write();
    expect(host.calls.some((call) => call.startsWith('write'))).toBe(false);
    pasteOf(store).decide({ ones: 'over range' });
    expect(pasteOf(store).isReady.value).toBe(true);
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
