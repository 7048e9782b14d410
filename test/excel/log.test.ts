import { beforeEach, describe, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import { type LogLine, logPlan, readLog, withLines } from '../../src/sheets/log';
import { realize } from '../../src/sheets/realize';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/* The log through the real client library and the embedded spreadsheet. */
let host: Host;
let test: TestHost;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
});

const line = (detail: string, more: Partial<LogLine> = {}): LogLine => ({
  when: '2026-11-25T09:30:00Z',
  who: 'A. Nobody',
  what: 'built',
  sheet: 'Run 1',
  detail,
  program: '0.1.0',
  ...more,
});
const log = async () => (await host.book({ sheets: ['Log'] })).sheets[0]!;
const details = async () => readLog(await log()).map((texts) => texts[4]);

it('is made with its first line, protected, and leaves the sheet in front', async () => {
  const before = await host.selection();
  await host.appendLog([line('first')], 'log1');
  expect(await host.selection()).toEqual(before);
  const sheet = await log();
  expect(sheet.isProtected).toBe(true);
  expect(readLog(sheet)).toEqual([
    ['2026-11-25 09:30:00 UTC', 'A. Nobody', 'built', 'Run 1', 'first', '0.1.0'],
  ]);
  expect(await host.survey()).toMatchObject({ sheets: [{ sheet: 'Log', kind: 'log', id: 'log1' }] });
});

it('grows below its last line and leaves the older ones as they are, also when renamed', async () => {
  await host.appendLog([line('first'), line('second')], 'log1');
  const before = await log();
  await test.run(async (context) => {
    context.workbook.worksheets.getItem('Log').name = 'What was done';
    await context.sync();
  });
  await host.appendLog([line('third')], 'log2');
  const book = await host.book();
  const after = book.sheets.find(({ name }) => name === 'What was done')!;
  expect(book.sheets.some(({ name }) => name === 'Log')).toBe(false);
  expect(readLog(after).map((texts) => texts[4])).toEqual(['first', 'second', 'third']);
  for (const [at, cell] of Object.entries(before.cells)) expect(after.cells[at]).toEqual(cell);
});

/*
 * Two people: both panes look at the workbook, and both look before either has written. Each line must come to
 * stand below the other, since the place is found in the batch that writes.
 */
it('keeps both lines when two write at the same time', async () => {
  await host.appendLog([line('first')], 'log1');
  await Promise.all([host.appendLog([line('mine')], 'a'), host.appendLog([line('theirs')], 'b')]);
  const found = await details();
  expect(found[0]).toBe('first');
  expect(found.slice(1).sort()).toEqual(['mine', 'theirs']);
  expect((await log()).isProtected).toBe(true);
});

it('goes below a line that came in between our look and our write', async () => {
  await host.appendLog([line('first')], 'log1');
  const bridge = test.workbench.bridge as unknown as { sendMessageToHost(text: string): void };
  const send = bridge.sendMessageToHost.bind(bridge);
  let messages = 0;
  bridge.sendMessageToHost = (text) => {
    // Before the third message, which writes: another person’s line appears.
    if (!text.includes('_RemoveReference') && ++messages === 3) {
      const sheet = test.engine.sheetByName('Log')!;
      sheet.enter({ row: 5, column: 0, rows: 1, columns: 5 }, () => ({ kind: 'value', value: 'theirs' }));
    }
    send(text);
  };
  await host.appendLog([line('mine')], 'log1');
  bridge.sendMessageToHost = send;
  // A fourth sets what is printed.
  expect(messages).toBe(4);
  expect(await details()).toEqual(['first', 'theirs', 'mine']);
});

describe('text', () => {
  it.each([
    '=1+1',
    '+49 30 1234',
    '-5',
    '@SUM(A1)',
    '0012',
    '12/5',
    '1E5',
    'TRUE',
    "'quoted",
    `=HYPERLINK("x";"${'long '.repeat(60)}")`,
  ])('%s stays text', async (text) => {
    await host.appendLog([line(text, { who: text, sheet: text })], 'log1');
    const sheet = await log();
    expect(readLog(sheet)[0]).toEqual(['2026-11-25 09:30:00 UTC', text, 'built', text, text, '0.1.0']);
    expect(Object.values(sheet.cells).every(({ formula }) => formula === undefined)).toBe(true);
  });
});

it('of a newer version is left alone', async () => {
  await test.run(async (context) => {
    const sheet = context.workbook.worksheets.add('Log');
    sheet.names.add('LightSheet', '="log;99;x"');
    await context.sync();
  });
  await expect(host.appendLog([line('first')], 'log1')).rejects.toMatchObject({ trouble: 'refused' });
  expect((await log()).cells).toEqual({});
});

it('as plain data grows in the same way', () => {
  const begun = withLines(realize(logPlan('log1')), [line('first')]);
  const grown = withLines(begun, [line('=1+1'), line('third')]);
  expect(readLog(grown).map((texts) => texts[4])).toEqual(['first', '=1+1', 'third']);
  expect(grown.print!.area).toBe('A1:F7');
  for (const [at, cell] of Object.entries(begun.cells)) expect(grown.cells[at]).toEqual(cell);
});
