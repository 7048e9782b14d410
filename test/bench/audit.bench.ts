import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { calculateBook } from '../../src/audit/formula/calculate';
import { verify } from '../../src/audit/seal/verify';
import { batchPlan } from '../../src/sheets/batch';
import type { Book } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { sealed } from '../audit/sealing';
import { measured } from '../audit/sheets';
import { batchSetup, typed } from '../sheets/batchcases';

const SHEETS = 200;

/** A workbook of 200 run sheets of all layouts, invented readings, each with a name of its own. */
function workbook(count: number): Book {
  return measured(...Array.from({ length: count }, (_, i) => i + 1));
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}

it('checks 200 run sheets in seconds, and twice as many in twice the time', async () => {
  const whole = workbook(SHEETS);
  const half: Book = { ...whole, sheets: whole.sheets.slice(0, SHEETS / 2) };
  const cells = whole.sheets.reduce((sum, sheet) => sum + Object.keys(sheet.cells).length, 0);
  await check({ ...whole, sheets: whole.sheets.slice(0, 20) });
  const before = process.memoryUsage().heapUsed;
  let peak = before;
  const times = { half: Number.POSITIVE_INFINITY, whole: Number.POSITIVE_INFINITY };
  for (let turn = 0; turn < 2; turn++) {
    times.half = Math.min(times.half, await seconds(() => check(half)));
    const watch = async () => {
      peak = Math.max(peak, process.memoryUsage().heapUsed);
    };
    times.whole = Math.min(times.whole, await seconds(() => check(whole, { pause: watch })));
  }
  const report = await check(whole);
  expect(report.sheets.length).toBe(SHEETS);
  expect(report.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  const growth = times.whole / times.half;
  console.log(
    `check of ${SHEETS} sheets, ${cells} cells: ${times.whole.toFixed(2)} s; of ${SHEETS / 2}: ${times.half.toFixed(2)} s, growth ${growth.toFixed(2)}; heap ${((peak - before) / 1e6).toFixed(0)} MB above the workbook`,
  );
  expect(growth).toBeLessThan(3);
}, 300_000);

it('checks a file of 100 and of 200 run sheets of all layouts, read and all', async () => {
  const sizes = [SHEETS / 2, SHEETS];
  const lines: string[] = [];
  const times: number[] = [];
  for (const count of sizes) {
    const bytes = await writeXlsx(workbook(count));
    globalThis.gc?.();
    const before = process.memoryUsage().rss;
    let [reading, most] = [0, before];
    const watch = async () => {
      most = Math.max(most, process.memoryUsage().rss);
    };
    const time = await seconds(async () => {
      const start = performance.now();
      const book = await readXlsx(bytes);
      reading = (performance.now() - start) / 1000;
      await watch();
      const { sheets, findings } = await check(book, { pause: watch });
      expect(sheets.length).toBe(count);
      expect(findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    });
    times.push(time);
    await watch();
    lines.push(
      `${count} sheets, file of ${(bytes.length / 1e6).toFixed(1)} MB: ${time.toFixed(2)} s, of them ${reading.toFixed(2)} s to read; the process at most at ${(most / 1e6).toFixed(0)} MB, ${(before / 1e6).toFixed(0)} MB of them before, when the file had been made`,
    );
  }
  console.log(`${lines.join('\n')}\ngrowth ${(times[1]! / times[0]!).toFixed(2)} for twice as many sheets`);
}, 600_000);

it('verifies 20 seals', async () => {
  let book = workbook(20);
  for (const at of book.sheets.keys()) book = await sealed(book, at);
  const time = await seconds(async () => {
    for (const { name } of book.sheets) {
      expect((await verify(book, name, { subtle: crypto.subtle })).state).toBe('holds');
    }
  });
  console.log(`verify: ${((time / 20) * 1000).toFixed(1)} ms a sheet`);
}, 120_000);

it('checks a batch of 500 and of 5000 units in step with their number', { timeout: 1_800_000 }, async () => {
  const sizes = [500, 5000];
  const spent: number[] = [];
  for (const units of sizes) {
    const plan = typed(batchPlan({ ...batchSetup({ lines: units }), lines: units }, 'many1'), {
      Readings: Array.from({ length: units }, (_, i) => Array.from({ length: 9 }, () => 80 + (i % 7))),
      AmbientReadings: [[3]],
      AmbientRange: [[1]],
    });
    const book = calculateBook(bookOf([plan]));
    const before = process.cpuUsage();
    const began = performance.now();
    const { findings } = await check(book);
    const { user, system } = process.cpuUsage(before);
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    spent.push((user + system) / 1e6);
    console.log(
      `check of a batch of ${units} units: ${spent.at(-1)!.toFixed(1)} s of processor time, ${((performance.now() - began) / 1000).toFixed(1)} s`,
    );
  }
  expect(spent[1]! / spent[0]!).toBeLessThan(20);
});
