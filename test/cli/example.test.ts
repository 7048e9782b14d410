import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readXlsx } from '../../src/xlsx';
import { light, lightProcess } from './light';

/** The whole example is built and checked by processes of their own, which have little memory. */
const SLOW = 180_000;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-example-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

it(
  'writes the ready example as a file: marked, calculated, without an error, with charts',
  async () => {
    const { code, out, err } = await lightProcess(folder, ['example', 'out.xlsx']);
    expect([code, out]).toEqual([0, '']);
    expect(err).toContain('sheets of invented data');
    const bytes = new Uint8Array(await readFile(join(folder, 'out.xlsx')));
    const { sheets } = await readXlsx(bytes);
    for (const { name, cells } of sheets) {
      expect(cells.A1?.value, name).toMatch(/^Invented example\. /);
      const errors = Object.values(cells).filter(({ value }) => typeof value === 'object' && value !== null);
      expect(errors, name).toEqual([]);
    }
    const run = sheets.find(({ name }) => name.startsWith('Run '))!;
    expect(Object.values(run.cells).filter(({ value }) => value === 'pass').length).toBeGreaterThan(1);
    // The function of the batch fills its whole table, which says what the plain formulas say.
    const batch = sheets.find(({ names }) => names.some(({ name }) => name === 'FunctionTable'))!;
    const said = Object.values(batch.cells).map(({ value }) => value);
    expect(said.filter((value) => value === 'agree').length).toBeGreaterThan(10);
    expect(said).not.toContain('plain formula only');
    expect(await lightProcess(folder, ['check', 'out.xlsx'])).toMatchObject({ code: 0 });
    // Need, offers, comparison, acceptance and three units over hours.
    expect(Object.keys(unzipSync(bytes)).filter((path) => /charts\/chart\d+\.xml$/.test(path))).toHaveLength(
      7,
    );
  },
  SLOW,
);

it(
  'asks no program to calculate it again, since every result is there',
  async () => {
    const parts = unzipSync(new Uint8Array(await readFile(join(folder, 'out.xlsx'))));
    // ECMA-376-1, 18.2.2: what makes a program calculate a file when it opens it.
    expect(strFromU8(parts['xl/workbook.xml']!)).not.toMatch(/fullCalcOnLoad="(?:1|true)"/);
    const { sheets } = await readXlsx(new Uint8Array(await readFile(join(folder, 'out.xlsx'))));
    // An empty text comes back from a file as an empty text of a formula, never as nothing.
    for (const { name, cells } of sheets) {
      const open = Object.entries(cells).filter(
        ([, { formula, value }]) => formula !== undefined && value === null,
      );
      expect(
        open.map(([at]) => at),
        name,
      ).toEqual([]);
    }
  },
  SLOW,
);

it(
  'gives the results of every kind of sheet, in words and with units a person reads',
  async () => {
    const { code, out, err } = await light(folder, 'results', 'out.xlsx');
    expect([code, err]).toEqual([0, '']);
    const sheets = new Map(
      out.split('\n\n').map((part) => [part.split('\n')[0]!, part.split('\n').slice(1)]),
    );
    // Every sheet there is, by the example's own list in the README.
    expect([...sheets.keys()].map((name) => name.split(' ')[0])).toEqual([
      ...['Need', 'Offers', 'Run', 'Run', 'Run', 'Run', 'Batch', 'Comparison', 'Acceptance', 'Certificate'],
      ...['Ageing', 'Ageing', 'Ageing', 'Overview'],
    ]);
    for (const [name, lines] of sheets) expect(lines.length, name).toBeGreaterThan(5);
    // No unit behind words, no part of 1 called a percentage, no days as numbers.
    expect(out).not.toMatch(/(?:of 9|waiting|pass|fail) (?:lm|lx|%|: 1)/);
    const shown = (sheet: RegExp, label: string) => {
      const [, lines = []] = [...sheets].find(([name]) => sheet.test(name))!;
      return lines
        .find((line) => line.trim().startsWith(`${label}  `))
        ?.trim()
        .slice(label.length)
        .trim();
    };
    expect(shown(/^Need/, 'White to ask for, Hillside')).toMatch(/^2547\.77 lm$/);
    expect(shown(/^Batch/, 'Uniformity, min ÷ max, RR-1002')).toMatch(/^88\.\d+ %$/);
    expect(shown(/^Comparison/, 'U of White light output, RR-1057, Standard')).toMatch(/ lm$/);
    expect(shown(/^Ageing Hill/, 'Day this falls on at the planned use')).toMatch(/^20\d\d-\d\d-\d\d$/);
    // None nonconforming: a lot without a fault is always accepted.
    const curve = 'Probability that the lot is accepted, Nonconforming units in the lot = 0';
    expect(shown(/^Acceptance/, curve)).toBe('100 %');
    expect(shown(/^Acceptance/, 'Verdict on the lot')).toBe('rejected');
    // The same result in both forms; in json the value as it stands in the cell.
    const { out: json } = await light(folder, 'results', 'out.xlsx', '--format', 'json');
    const all = JSON.parse(json) as { label: string; value: unknown; unit: string }[];
    expect(all.find(({ label }) => label === curve)).toMatchObject({ value: 1, unit: '' });
    // Every line says what it is: no two of a sheet have the same words.
    for (const [name, lines] of sheets) {
      const labels = lines.map((line) => line.trim().split(/ {2,}/)[0]!);
      const twice = labels.filter((label, i) => labels.indexOf(label) !== i);
      expect(twice, name).toEqual([]);
    }
  },
  SLOW,
);

it(
  'keeps an existing file, and asks for a name',
  async () => {
    const kept = await light(folder, 'example', 'out.xlsx');
    expect([kept.code, kept.err]).toEqual([2, expect.stringContaining('exists already')]);
    const nameless = await light(folder, 'example');
    expect([nameless.code, nameless.err]).toEqual([2, expect.stringContaining('needs a file')]);
  },
  SLOW,
);
