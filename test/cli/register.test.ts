import { createHash } from 'node:crypto';
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { gridOf, viewOf } from '../../src/audit/view';
import { isOfUnit } from '../../src/cli/register/ageing';
import type { RegisterLine } from '../../src/cli/register/lines';
import { readXlsx } from '../../src/xlsx';
import { lightProcess, light as run } from './light';

/*
 * A folder of frozen workbooks as a register. What a workbook shows was recorded by the program that made it
 * (test/frozen), and the SQL engine is a general one; the examples of the README are run as they stand there.
 */

const FROZEN = join(import.meta.dirname, '../frozen/first');
const FILES = [
  'run-plainest',
  'certificate-plainest',
  'acceptance-plainest',
  'ageing-fullest',
  'batch-white-plainest',
];

let folder: string;
const light = (...args: string[]) => run(folder, ...args);
const path = (name: string) => join(folder, name);
const text = (name: string) => readFile(path(name), 'utf8');

interface Line {
  readonly workbook: string;
  readonly quantity: string;
  readonly value: number;
  readonly u: number;
  readonly error: string | null;
}
const linesOf = async (name: string): Promise<Line[]> =>
  (await text(name))
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-register-'));
  await mkdir(path('measured/2026'), { recursive: true });
  for (const file of FILES) await copyFile(join(FROZEN, `${file}.xlsx`), path(`measured/2026/${file}.xlsx`));
  await writeFile(path('measured/broken.xlsx'), 'no workbook');
  await writeFile(path('measured/2026/~$run-plainest.xlsx'), 'held open');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('light register', () => {
  it('has a line for each result as the workbook showed it, and one for a file that cannot be read', async () => {
    const { code, err } = await light('register', 'measured', '-o', 'all.jsonl');
    expect([code, err]).toEqual([
      1,
      expect.stringContaining('6 workbooks, 1 of them could not be read whole'),
    ]);
    const lines = await linesOf('all.jsonl');
    expect(lines.filter(({ error }) => error !== null)).toEqual([
      expect.objectContaining({
        workbook: 'broken.xlsx',
        error: expect.stringMatching(/not an \.xlsx workbook/),
      }),
    ]);
    const frozen = JSON.parse(await readFile(join(FROZEN, 'run-plainest.json'), 'utf8'));
    const shown = (name: string) => frozen.results.find((each: { name: string }) => each.name === name).value;
    expect(
      lines.find(
        (each) => each.workbook === '2026/run-plainest.xlsx' && each.quantity === 'WhiteLightOutput',
      ),
    ).toMatchObject({
      sha256: frozen.sha256,
      kind: 'run',
      layout: 3,
      value: shown('WhiteLightOutput'),
      u: shown('WhiteExpanded'),
      k: shown('WhiteK'),
      unit: 'lm',
      decision: shown('WhiteVerdict'),
      seal: 'none',
      error: null,
    });
    // What says more of a result stands in its line, and in no line of its own.
    expect(lines.some(({ quantity }) => quantity === 'WhiteExpanded')).toBe(false);
  });

  it('reads again only what has changed, and says the same', async () => {
    const before = await text('all.jsonl');
    const again = await light('register', 'measured', '-o', 'all.jsonl', '--force');
    expect(again.err).toContain('0 read, 6 unchanged');
    expect(await text('all.jsonl')).toBe(before);
    const one = path('measured/2026/run-plainest.xlsx');
    await utimes(one, new Date(), new Date(Date.UTC(2026, 0, 1)));
    expect((await light('register', 'measured', '-o', 'all.jsonl', '--force')).err).toContain(
      '1 read, 5 unchanged',
    );
    expect(await text('all.jsonl')).toBe(before);
  });

  it('takes nothing on trust of a file that was changed and given its old size and time', async () => {
    await mkdir(path('twice'), { recursive: true });
    const file = path('twice/one.xlsx');
    await copyFile(join(FROZEN, 'run-plainest.xlsx'), file);
    await light('register', 'twice', '-o', 'twice.jsonl');
    const { mtime, atime } = await stat(file);
    const bytes = await readFile(file);
    // The time of the first part of the archive: nothing that a reader looks at.
    bytes[10]! ^= 1;
    await writeFile(file, bytes);
    await utimes(file, atime, mtime);
    await light('register', 'twice', '-o', 'twice.jsonl', '--force');
    const digest = createHash('sha256').update(bytes).digest('hex');
    const lines = (await text('twice.jsonl')).trimEnd().split('\n');
    expect(new Set(lines.map((line) => JSON.parse(line).sha256))).toEqual(new Set([digest]));
  });

  it('leaves nothing behind where no register is written', async () => {
    await mkdir(path('passing'));
    vi.stubEnv('TMPDIR', path('passing'));
    const sql = 'SELECT count(*) AS n FROM register';
    expect((await light('register', 'twice', '--sql', sql)).code).toBe(0);
    expect(await readdir(path('passing'))).toEqual([]);
    vi.unstubAllEnvs();
  });

  it('says in words that there is no such folder', async () => {
    expect(await light('register', 'nowhere', '-o', 'no.csv')).toMatchObject({
      code: 2,
      err: 'light: nowhere cannot be read: there is no such folder.\n',
    });
  });

  it('a text never becomes a formula in the CSV', async () => {
    await mkdir(path('sly'), { recursive: true });
    await copyFile(join(FROZEN, 'spot-plainest.xlsx'), path('sly/=1+1.xlsx'));
    expect((await light('register', 'sly', '-o', 'sly.csv')).code).toBe(0);
    const [head, first] = (await text('sly.csv')).split('\r\n');
    expect(head).toMatch(/^workbook,sha256,sheet,kind,/);
    expect(first).toMatch(/^'=1\+1\.xlsx,/);
  });

  it('what cannot be written is said, and is no finding', async () => {
    await mkdir(path('folder.csv'), { recursive: true });
    for (const [target, words] of [
      ['none/x.csv', 'light: none/x.csv cannot be written: the folder it should be in is not there.'],
      ['none/x.parquet', 'light: none/x.parquet cannot be written: the folder it should be in is not there.'],
      ['folder.csv', 'light: folder.csv cannot be written: it is a folder.'],
    ] as const)
      expect(await light('register', 'measured', '--force', '-o', target)).toMatchObject({
        code: 2,
        err: `${words}\n`,
      });
    // What is kept beside a register is a file like it.
    await mkdir(path(`at.csv.kept.${process.pid}`), { recursive: true });
    expect(await light('register', 'measured', '-o', 'at.csv')).toMatchObject({
      code: 2,
      err: 'light: at.csv.kept cannot be written: it is a folder.\n',
    });
  });

  it('a register that is there stays until the new one is whole', async () => {
    await writeFile(path('there.csv'), 'the old one', { mode: 0o640 });
    expect(await light('register', 'measured', '-o', 'there.csv')).toMatchObject({ code: 2 });
    expect(await text('there.csv')).toBe('the old one');
    expect(await light('register', 'measured', '--force', '-o', 'there.csv')).toMatchObject({ code: 1 });
    expect(await text('there.csv')).toMatch(/^workbook,/);
    expect((await stat(path('there.csv'))).mode & 0o777).toBe(0o640);
  });

  it('a unit is found however its serial number is typed', () => {
    const line = { quantity: 'WhiteLightOutput', value: 1 } as RegisterLine;
    for (const serial of ['A1 ', '\u00a0A1', 'A1']) expect(isOfUnit({ ...line, serial }, ' A1')).toBe(true);
    expect(isOfUnit({ ...line, serial: 'Caf\u00e9  2' }, 'Cafe\u0301 2')).toBe(true);
    for (const serial of ['A 1', 'a1', '', null]) expect(isOfUnit({ ...line, serial }, 'A1')).toBe(false);
    expect(isOfUnit({ ...line, serial: null }, ' ')).toBe(false);
  });

  it('by workers in a process of its own it says the same', async () => {
    for (let i = 0; i < 8; i++)
      await copyFile(join(FROZEN, 'spot-plainest.xlsx'), path(`measured/2026/spot-${i}.xlsx`));
    expect((await light('register', 'measured', '-o', 'here.jsonl')).code).toBe(1);
    const { code, err } = await lightProcess(folder, ['register', 'measured', '-o', 'workers.jsonl']);
    expect([code, err]).toEqual([1, expect.stringContaining('14 workbooks')]);
    expect(await text('workers.jsonl')).toBe(await text('here.jsonl'));
  });

  it('writes Parquet and answers questions', async () => {
    const args = ['register', 'measured', '-o', 'all.parquet', '--format', 'json'];
    const { out } = await light(...args, '--sql', "SELECT count(*) AS n FROM register WHERE kind = 'run'");
    const runs = (await linesOf('here.jsonl')).filter(
      (each) => (each as unknown as { kind: string }).kind === 'run',
    );
    expect(JSON.parse(out)).toEqual([{ n: String(runs.length) }]);
    expect((await stat(path('all.parquet'))).size).toBeGreaterThan(1000);
    const wrong = await light('register', 'measured', '--sql', 'SELECT nothing FROM register');
    expect([wrong.code, wrong.err]).toEqual([
      2,
      expect.stringContaining('The question could not be answered'),
    ]);
  });

  it('the questions of the README are answered', async () => {
    const page = await readFile(join(import.meta.dirname, '../../src/cli/REGISTER.md'), 'utf8');
    const blocks = [...page.matchAll(/```sql\n([\s\S]*?)```/g)].map(([, sql]) => sql!);
    expect(blocks.length).toBe(1);
    for (const sql of blocks) {
      for (const question of sql
        .split(';')
        .map((each) => each.trim())
        .filter(Boolean)) {
        const { code, err } = await light(
          'register',
          'measured',
          '-o',
          'all.parquet',
          '--force',
          `--sql=${question}`,
        );
        expect([code, err], question).toEqual([1, expect.stringContaining('workbooks')]);
      }
    }
  });

  it('shows what was accepted, by whom', async () => {
    const { out } = await light('register', 'measured', '--accepted', '--format', 'json');
    const kinds = JSON.parse(out).map(
      ({ kind, quantity }: { kind: string; quantity: string }) => `${kind} ${quantity}`,
    );
    expect(kinds).toEqual(expect.arrayContaining(['acceptance LotVerdict', 'certificate CertifiedWhite']));
  });

  it('the ageing of a unit over all workbooks is an ageing sheet', async () => {
    const lines = (await linesOf('here.jsonl')) as unknown as {
      serial: string;
      hours: number;
      value: number;
      quantity: string;
    }[];
    const measured = lines.filter(({ quantity }) => quantity === 'MeasuredOutput');
    const { serial } = measured[0]!;
    const { code, err } = await light('register', 'measured', '--ageing', serial, '-o', 'ageing.xlsx');
    expect([code, err]).toEqual([
      1,
      expect.stringContaining(`${measured.length} measurements of “${serial}”`),
    ]);
    const { sheets } = await readXlsx(new Uint8Array(await readFile(path('ageing.xlsx'))));
    const view = viewOf(sheets[0]!);
    const filled = gridOf(view, 'MeasuredOutput')
      .flat()
      .filter((value) => value !== null && value !== '');
    const byHours = [...measured].sort((a, b) => a.hours - b.hours).map(({ value }) => value);
    expect(filled).toEqual(byHours);
    // The same measurements as on the frozen sheet: the same fall a thousand hours.
    const before = await readXlsx(new Uint8Array(await readFile(path('measured/2026/ageing-fullest.xlsx'))));
    expect(gridOf(view, 'FallRate')[0]![0]).toBeCloseTo(
      Number(gridOf(viewOf(before.sheets[0]!), 'FallRate')[0]![0]),
      12,
    );
  });
});
