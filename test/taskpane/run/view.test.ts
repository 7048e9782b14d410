// @vitest-environment node
import { describe, expect, it } from 'vitest';
import type { CellValue } from '../../../src/sheets/book';
import type { CellName } from '../../../src/sheets/names/all';
import { ratioSentence, viewOf } from '../../../taskpane/run/view';
import type { FakeHost } from '../fakehost';
import { complete, halfway, putResult, runHost, WHITE } from '../scenes';

const view = async (host: FakeHost) => viewOf(await host.read(host.active));

describe('readings', () => {
  it('are counted, and the missing and over-range ones named by field and point', async () => {
    const run = await view(await halfway());
    expect([run.done, run.of]).toEqual([31, 36]);
    const blue = run.fields.find(({ field }) => field.label === 'blue')!;
    expect(blue.missing.map(({ words }) => words)).toEqual([
      'middle right (point 6)',
      'bottom left (point 7)',
      'bottom centre (point 8)',
      'bottom right (point 9)',
    ]);
    expect(blue.over.map(({ words }) => words)).toEqual(['middle centre (point 5)']);
  });

  /** A meter shows 0 in a lit image only when something is wrong; in black and ambient it may: domain, common practice. */
  it('count 0 as missing in a lit field, as a reading in black', async () => {
    const host = await runHost();
    const zero: CellValue[][] = WHITE.map((row) => row.map(() => 0));
    host.put(host.active, 'WhiteReadings', zero);
    host.put(host.active, 'BlackReadings', zero);
    const run = await view(host);
    expect(run.fields.find(({ field }) => field.label === 'white')?.done).toBe(0);
    expect(run.fields.find(({ field }) => field.label === 'black')?.done).toBe(9);
  });

  it('are led to the over-range one when nothing is missing', async () => {
    const host = await complete();
    host.put(host.active, 'RedReadings', [[80, 'over']]);
    expect((await view(host)).next).toMatchObject({ label: 'red', place: { words: 'top centre (point 2)' } });
  });

  it('count every repeat, and name the repeat that is missing', async () => {
    const host = await runHost({ repeats: 3 });
    host.put(host.active, 'WhiteReadings', WHITE);
    host.put(host.active, 'WhiteRepeat2', [WHITE[0]!, [WHITE[1]![0]!, 'over', null], WHITE[2]!]);
    const run = await view(host);
    // Four fields of nine points, three times: 108; 9 + 7 of them are there.
    expect([run.done, run.of]).toEqual([16, 108]);
    expect(run.fields.map(({ field }) => field.label).slice(0, 5)).toEqual([
      'ambient',
      'white',
      'white repeat 2',
      'white repeat 3',
      'red',
    ]);
    expect(run.next).toMatchObject({ label: 'white repeat 2', place: { words: 'middle right (point 6)' } });
  });

  it('count the repeats of patterns', async () => {
    const host = await runHost({ repeats: 2, colour: 'tiled patterns' });
    const { fields, of } = await view(host);
    expect(of).toBe(72);
    expect(fields.map(({ field }) => field.name)).toContain('PatternCRepeat2');
    expect(fields.map(({ field }) => field.name)).not.toContain('RedReadings');
  });

  it('know corners, checkerboard and ambient at nine points by their own places', async () => {
    const host = await runHost({ corners: true, checkerboard: true, ambient: 'nine points' });
    const run = await view(host);
    const of = Object.fromEntries(run.fields.map((progress) => [progress.field.label, progress.of]));
    expect(of).toMatchObject({ ambient: 9, corner: 4, checkerboard: 16 });
    const corner = run.fields.find(({ field }) => field.label === 'corner')!;
    expect(corner.missing[3]!.words).toBe('bottom right corner (point 13)');
  });
});

describe('a sheet that has lost a name', () => {
  const without = async (host: FakeHost, name: CellName) => {
    const reading = await host.read(host.active);
    const { [name]: _lost, ...values } = reading.values;
    return viewOf({ ...reading, values });
  };

  it('says that white is gone, and still counts it among what is to be read', async () => {
    const view = await without(await runHost(), 'WhiteReadings');
    expect(view.lost.map(({ name, label }) => [name, label])).toEqual([['WhiteReadings', 'white']]);
    expect([view.done, view.of]).toEqual([0, 36]);
  });

  it.each([
    ['BlackReadings', { black: true }],
    ['PatternB', { colour: 'tiled patterns' }],
    ['LastReading', {}],
    ['BoardReadings', { checkerboard: true }],
  ] as const)('misses %s by the names that stood beside it', async (name, setup) => {
    const view = await without(await runHost(setup), name);
    expect(view.lost.map((field) => field.name)).toEqual([name]);
    if (name === 'PatternB')
      expect(view.fields.some(({ field }) => field.name === 'RedReadings')).toBe(false);
  });

  it('misses nothing on a whole sheet, whatever it has', async () => {
    for (const setup of [{}, { colour: 'none', black: false }, { corners: true, ambient: 'none' }] as const) {
      const host = await runHost(setup);
      expect(viewOf(await host.read(host.active)).lost).toEqual([]);
    }
  });
});

describe('results', () => {
  it('wait without a number, and stand as the sheet shows them', async () => {
    const run = await view(await halfway());
    const of = (name: CellName) => run.results.find((result) => result.name === name);
    expect(of('WhiteLightOutput')).toMatchObject({ text: '2604.2', unit: 'lm', value: 2604.2 });
    expect(of('ColourLightOutput')).toMatchObject({ text: '' });
    expect(run.ratio).toBeUndefined();
  });

  it('are the plain formula\u2019s while the function does not answer', async () => {
    const host = await complete();
    putResult(host, 'WhiteLightOutput', { error: '#NAME?' });
    putResult(host, 'WhiteLightOutputPlain', 2604.2, '2,604.2');
    const run = await view(host);
    expect(run.needsRefresh).toBe(true);
    expect(run.results[0]).toMatchObject({ text: '2604.2', message: 'by plain formula' });
  });

  it('show the words behind an error', async () => {
    const host = await complete();
    putResult(host, 'WhiteLightOutput', {
      error: '#VALUE!',
      message: 'The image area must be greater than 0; it is 0.',
    });
    expect((await view(host)).results[0]!.message).toContain('The image area must be greater than 0');
  });

  it('keep "at least" for a black too dark for the meter', async () => {
    const host = await complete();
    putResult(host, 'SequentialContrast', 'at least 1100');
    const run = await view(host);
    expect(run.results.find(({ name }) => name === 'SequentialContrast')).toMatchObject({
      text: 'at least 1100',
    });
  });
});

describe('function and plain formula', () => {
  it('that differ are named by their result', async () => {
    const host = await complete();
    host.put(host.active, 'Agreement', [['agree'], ['differ']]);
    expect((await view(host)).agreement).toMatchObject({ agreeing: 17, differing: ['Red light output'] });
  });
});

describe('remarks', () => {
  it('say of which field they are where their words do not', async () => {
    const host = await complete();
    putResult(host, 'BlueRemarks', 'Fewer than three significant digits at all nine points.');
    expect((await view(host)).remarks).toEqual([
      'Blue: Fewer than three significant digits at all nine points.',
    ]);
  });

  // 2 % is common practice; by hand: 178 against 1780 is −90 %, 1709 is −4 %, 1750 is −1.7 %.
  it.each([
    [-0.9, 178, 'The last white reading (178 in range × 1) is −90 % off the first at the centre'],
    [-0.04, 1709, 'The centre changed by −4 % from the first white reading to the last (1709 in range × 1)'],
    [-0.017, 1750, undefined],
  ])('tell of a drift of %d', async (drift, last, words) => {
    const host = await complete();
    host.put(host.active, 'LastReading', [[last]]);
    putResult(host, 'Drift', drift);
    const { remarks } = await view(host);
    if (words === undefined) expect(remarks).toEqual([]);
    else expect(remarks).toEqual([expect.stringContaining(words)]);
  });

  it('are shown for complete fields only, and not when there is nothing to remark', async () => {
    const host = await complete();
    putResult(host, 'WhiteRemarks', 'The white reading at top left (point 1) is 12 × 1.');
    putResult(host, 'RedRemarks', 'nothing to remark');
    expect((await view(host)).remarks).toEqual(['The white reading at top left (point 1) is 12 × 1.']);
    const waiting = await halfway();
    putResult(waiting, 'BlueRemarks', 'The blue reading at middle right (point 6) is missing.');
    expect((await view(waiting)).remarks).toEqual([]);
  });
});

/** White near 2300 lm with colour near 800 lm is a ratio near 0.35; equal figures are a ratio of 1: common practice. */
describe('the ratio in a sentence', () => {
  it.each([
    [0.35, 'Clearly below 1'],
    [0.89, 'Clearly below 1'],
    [0.95, 'About 1'],
    [1, 'About 1'],
    [1.3, 'More light in colour than in white'],
  ])('%d: %s', (ratio, words) => {
    expect(ratioSentence(ratio)).toContain(words);
  });
});
