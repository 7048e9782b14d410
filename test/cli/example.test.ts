import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readXlsx } from '../../src/xlsx';
import { bundle, light } from './light';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-example-'));
  await bundle();
}, 60_000);
afterAll(() => rm(folder, { recursive: true, force: true }));

it('writes the ready example as a file: marked, calculated, without an error, with charts', async () => {
  const { code, out, err } = await light(folder, 'example', 'out.xlsx');
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
  expect(await light(folder, 'check', 'out.xlsx')).toMatchObject({ code: 0 });
  // Need, offers, comparison, acceptance and three units over hours.
  expect(Object.keys(unzipSync(bytes)).filter((path) => /charts\/chart\d+\.xml$/.test(path))).toHaveLength(7);
});

it('keeps an existing file, and asks for a name', async () => {
  const kept = await light(folder, 'example', 'out.xlsx');
  expect([kept.code, kept.err]).toEqual([2, expect.stringContaining('exists already')]);
  const nameless = await light(folder, 'example');
  expect([nameless.code, nameless.err]).toEqual([2, expect.stringContaining('needs a file')]);
});
