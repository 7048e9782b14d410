import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { readXlsx, writeXlsx } from '../../src/xlsx';
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
    const own = await check(await readXlsx(new Uint8Array(await readFile(path))));
    // What the pane's engine finds, and nothing else.
    expect(JSON.parse(checked.out).findings).toEqual(JSON.parse(JSON.stringify(own.findings)));
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
  },
  60_000,
);
