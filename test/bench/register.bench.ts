import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { viewOf } from '../../src/audit/view';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { withSheet } from '../audit/sheets';

/*
 * The register of 100 and of 1000 workbooks of one run each, by the command line as people run it: time, and the most
 * memory of the process with its workers; then again after one workbook has changed. Data are invented.
 */
const ROOT = join(import.meta.dirname, '..', '..');
const SIZES = [100, 1000];
const SLOW = 1_800_000;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-many-'));
  const frozen = join(import.meta.dirname, '../frozen/first/run-plainest.xlsx');
  const book = await readXlsx(new Uint8Array(await readFile(frozen)));
  const at = viewOf(book.sheets[0]!).places.get('serialnumber')!.address;
  for (const size of SIZES) {
    await mkdir(join(folder, String(size)));
    for (let i = 0; i < size; i++) {
      const own = withSheet(book, 0, (sheet) => ({
        ...sheet,
        cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: `SN-${i}` } },
      }));
      await writeFile(join(folder, String(size), `${i}.xlsx`), await writeXlsx(own));
    }
  }
  spawnSync(process.execPath, [join(ROOT, 'src/cli/run.mjs'), '--version']);
}, SLOW);
afterAll(() => rm(folder, { recursive: true, force: true }));

function register(size: number): { seconds: number; mb: number; said: string } {
  const began = performance.now();
  const bundle = join(ROOT, '.tsbuild/light/light.mjs');
  const told = `process.on('exit', () => console.error('most', process.resourceUsage().maxRSS))`;
  const { stderr } = spawnSync(
    process.execPath,
    [
      ...['--import', `data:text/javascript,${encodeURIComponent(told)}`, bundle],
      ...['register', String(size), '-o', `${size}.parquet`, '--force'],
    ],
    { cwd: folder, encoding: 'utf8' },
  );
  const most = Math.max(...[...stderr.matchAll(/most (\d+)/g)].map(([, kB]) => Number(kB)));
  return { seconds: (performance.now() - began) / 1000, mb: most / 1000, said: stderr };
}

it(
  'a register of 100 and of 1000 workbooks',
  async () => {
    const rows = [];
    for (const size of SIZES) {
      const first = register(size);
      expect(first.said).toContain(`${size} workbooks, 0 of them`);
      const one = join(folder, String(size), '7.xlsx');
      await utimes(one, new Date(), new Date());
      const again = register(size);
      expect(again.said).toContain(`1 read, ${size - 1} unchanged`);
      rows.push({
        workbooks: size,
        'first run, s': first.seconds.toFixed(1),
        'most memory, MB': first.mb.toFixed(0),
        'after one change, s': again.seconds.toFixed(1),
      });
    }
    console.table(rows);
  },
  SLOW,
);
