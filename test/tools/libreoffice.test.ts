import { mkdtemp, readdir, rm, rmdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { writeXlsx } from '../../src/xlsx';
import { bookWith } from '../xlsx/sample';
import { isLong } from './amount';
import { recalculate } from './libreoffice';
import { Office } from './office';

const SLOW = 120_000;

describe('recalculation by LibreOffice', () => {
  it('corrects a wrong cached value and does not know custom functions', { timeout: SLOW }, async () => {
    const file = await writeXlsx(
      bookWith({
        cells: {
          A1: { value: 1 },
          A2: { value: 2 },
          A3: { value: 999, formula: '=SUM(A1:A2)' },
          A4: { value: 5, formula: '=LIGHT.OUTPUT(A1:A2)' },
          A5: { value: 5, formula: '=IFERROR(LIGHT.OUTPUT(A1:A2),"absent")' },
          A6: { value: 'stale', formula: '=IF(A1>0,"","x")' },
          A7: { value: true, formula: '=A1>A2' },
        },
      }),
    );
    const [book] = await recalculate([file]);
    const { cells } = book!.sheets[0]!;
    expect(cells.A3!.value).toBe(3);
    expect(cells.A4!.value).toEqual({ error: '#NAME?' });
    expect(cells.A5!.value).toBe('absent');
    expect(cells.A6!.value).toBe('');
    expect(cells.A7!.value).toBe(false);
  });

  it('keeps 15 significant digits, with and without cached values', { timeout: SLOW }, async () => {
    const book = bookWith({
      cells: {
        A1: { value: 0, formula: '=1/3' },
        A2: { value: 0, formula: '=PI()*1E10' },
        A3: { value: 0, formula: '=EXP(-30)' },
        A4: { value: 0, formula: '=T.INV.2T(0.05,9)' },
        A5: { value: 1234567.89012345 },
      },
    });
    const files = [await writeXlsx(book), await writeXlsx(book, { cachedValues: false })];
    for (const { sheets } of await recalculate(files)) {
      const value = (at: string) => sheets[0]!.cells[at]!.value;
      expectNear(value('A1'), 1 / 3);
      expectNear(value('A2'), Math.PI * 1e10);
      expectNear(value('A3'), Math.exp(-30));
      // Student's t, 97.5 % point, 9 degrees of freedom: 2.262 in every printed table (from memory).
      expect(value('A4')).toBeCloseTo(2.262, 3);
      expect(value('A5')).toBe(1234567.89012345);
    }
  });

  it('takes many files in one run, and several runs at a time', { timeout: SLOW }, async () => {
    const file = (n: number) => writeXlsx(bookWith({ cells: { A1: { value: 0, formula: `=${n}*2` } } }));
    const files = await Promise.all([1, 2, 3].map(file));
    const runs = await Promise.all([recalculate(files), recalculate(files)]);
    for (const books of runs) {
      expect(books.map(({ sheets }) => sheets[0]!.cells.A1!.value)).toEqual([2, 4, 6]);
    }
  });

  it('gives up in time, says so, and leaves nothing behind', { timeout: SLOW }, async () => {
    const file = await writeXlsx(bookWith({ cells: { A1: { value: 1 } } }));
    const folder = await mkdtemp(join(tmpdir(), 'give-up-'));
    vi.stubEnv('TMPDIR', folder);
    await expect(recalculate([file], 20)).rejects.toThrow('took longer than 20 ms');
    vi.unstubAllEnvs();
    expect(await readdir(folder)).toEqual([]);
    await rmdir(folder);
  });

  it('says so when a file is no workbook', { timeout: SLOW }, async () => {
    await expect(recalculate([new Uint8Array([80, 75, 3, 4])])).rejects.toThrow(
      /LibreOffice made no file|Can't find end of central directory/,
    );
  });
});

// To start and kill one more takes as long as all that is asked of the one the suite uses.
describe.runIf(isLong)('a LibreOffice that keeps running', () => {
  it('says that it is gone when it was killed, and leaves nothing behind', {
    timeout: SLOW,
  }, async () => {
    const folder = await mkdtemp(join(tmpdir(), 'killed-'));
    const input = join(folder, 'a.csv');
    const args = ['--infilter=CSV:44,34,76', '--convert-to', 'xlsx', '--outdir', folder, input];
    await writeFile(input, '1,2\n');
    vi.stubEnv('TMPDIR', folder);
    const office = await Office.start('en-US', AbortSignal.timeout(SLOW));
    vi.unstubAllEnvs();
    expect(await office.run(args, AbortSignal.timeout(SLOW))).toContain('a.xlsx');
    expect(office.isRunning).toBe(true);
    process.kill(-office.pid!, 'SIGKILL');
    await vi.waitUntil(() => !office.isRunning, { timeout: SLOW });
    await expect(office.run(args, AbortSignal.timeout(SLOW))).rejects.toThrow('LibreOffice ended');
    await office.stop();
    expect((await readdir(folder)).sort()).toEqual(['a.csv', 'a.xlsx']);
    await rm(folder, { recursive: true });
  });
});

function expectNear(value: unknown, expected: number): void {
  expect(typeof value).toBe('number');
  expect(Math.abs((value as number) / expected - 1)).toBeLessThan(1e-14);
}
