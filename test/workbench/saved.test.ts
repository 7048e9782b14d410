import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plainCopy } from '../../src/audit/plain';
import { cellsOf, rectOf } from '../../src/sheets/address';
import type { Book } from '../../src/sheets/book';
import { exampleBook } from '../../src/sheets/example';
import { handOver, readXlsx, writeXlsx } from '../../src/xlsx';
import { lightProcess } from '../cli/light';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';

/*
 * A file holds what the sheet shows, the tables of array functions included. Against LibreOffice Calc, which knows
 * none of our functions: in a plain copy their tables are values, and its own plain formulas must agree with them.
 */
const SLOW = 600_000;
let bytes: Uint8Array;
let saved: Book;
let folder: string;
beforeAll(async () => {
  const { test } = await createPaneHost();
  let made = 0;
  await test.workbench.fromBook(exampleBook(() => `saved${made++}`));
  bytes = await writeXlsx(await test.workbench.toBook());
  saved = await readXlsx(bytes);
  folder = await mkdtemp(join(tmpdir(), 'light-saved-'));
  await writeFile(join(folder, 'saved.xlsx'), bytes);
}, SLOW);
afterAll(() => rm(folder, { recursive: true, force: true }));

test('nothing is found in the example, opened and saved, by a check in a process of its own', {
  timeout: SLOW,
}, async () => {
  const { code, out } = await lightProcess(folder, ['check', 'saved.xlsx']);
  expect(code, out).toBe(0);
});

test('the table of a function is whole in the file, with the range it fills', () => {
  const batch = saved.sheets.find(({ name }) => name.startsWith('Batch '))!;
  const table = batch.names.find(({ name }) => name === 'FunctionTable')!.refersTo;
  const range = table.slice(table.lastIndexOf('!') + 1).replaceAll('$', '');
  const [first, ...others] = cellsOf(range);
  expect(batch.cells[first!]?.spill).toBe(range);
  // The second column is the white light output; lines kept spare have none.
  const { column } = rectOf(range);
  const lumens = others.filter((at) => rectOf(at).column === column + 1).map((at) => batch.cells[at]?.value);
  expect(lumens.filter((value) => typeof value === 'number').length).toBeGreaterThan(10);
});

test('a plain copy of it, recalculated by LibreOffice, agrees everywhere', { timeout: SLOW }, async () => {
  const moment = { when: '2026-01-01T00:00:00Z', who: '', program: 'test' };
  const answer = plainCopy(saved, moment, []);
  if (!answer.ok) throw new Error(answer.why);
  const [copy] = await recalculate([await handOver(bytes, answer.copy)]);
  const formulas = copy!.sheets.flatMap(({ cells }) =>
    Object.values(cells).map(({ formula = '' }) => formula),
  );
  expect(formulas.filter((formula) => /LIGHT[._]|xldudf/.test(formula))).toEqual([]);
  const states = copy!.sheets.flatMap(({ cells }) => Object.values(cells).map(({ value }) => value));
  expect(states.filter((value) => value === 'agree').length).toBeGreaterThan(16);
  expect(states.filter((value) => value === 'differ')).toEqual([]);
});
