import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeXlsx } from '../../src/xlsx';
import { EXAMPLES } from '../audit/examples';
import { sealed } from '../audit/sealing';
import { light as run } from './light';

let folder: string;
const light = (...args: string[]) => run(folder, ...args);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-kinds-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

it.each(Object.entries(EXAMPLES))(
  'check, results and verify know the kind: %s',
  async (_, make) => {
    let book = make();
    for (const at of book.sheets.keys()) book = await sealed(book, at);
    const path = join(folder, 'kind.xlsx');
    await writeFile(path, await writeXlsx(book));
    const checked = await light('check', 'kind.xlsx', '--format', 'json');
    // Built and sealed a moment ago: there is nothing to find fault with.
    const { findings } = JSON.parse(checked.out) as { findings: { severity: string }[] };
    expect(findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(checked.code, checked.out).toBe(0);
    const results = await light('results', 'kind.xlsx', '--format', 'json');
    const sheet = book.sheets.at(-1)!;
    const found = (JSON.parse(results.out) as { sheet: string; cell: string; value: unknown }[]).filter(
      (each) => each.sheet === sheet.name,
    );
    expect(found.length).toBeGreaterThan(5);
    // An empty text comes back from a file as an empty cell.
    const value = (at: string) => sheet.cells[at]!.value || null;
    for (const each of found) expect(each.value || null, each.cell).toEqual(value(each.cell));
    expect(await light('verify', 'kind.xlsx')).toMatchObject({ code: 0 });
    // One result typed over, as somebody would who wants another: both commands say which.
    const { cell } = found.find((each) => sheet.cells[each.cell]?.formula !== undefined)!;
    const { formula: _formula, ...typed } = { ...sheet.cells[cell]!, value: 12_345.678 };
    const sheets = [...book.sheets.slice(0, -1), { ...sheet, cells: { ...sheet.cells, [cell]: typed } }];
    await writeFile(join(folder, 'typed.xlsx'), await writeXlsx({ ...book, sheets }));
    const only = ['--sheet', sheet.name];
    const seen = await light('check', 'typed.xlsx', ...only, '--format', 'json');
    expect(seen.code).toBe(1);
    const faults = (JSON.parse(seen.out) as { findings: { sheet: string; at?: string; kind: string }[] })
      .findings;
    expect(faults).toContainEqual(expect.objectContaining({ sheet: sheet.name, at: cell, kind: 'constant' }));
    const verified = await light('verify', 'typed.xlsx', ...only, '--format', 'csv');
    expect(verified.code).toBe(1);
    expect(verified.out).toContain(`,${cell},`);
  },
  60_000,
);
