import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { viewOf } from '../../src/audit/view';
import { readXlsx } from '../../src/xlsx';
import { FULL, SMALL } from '../template/examples';
import { recalculate } from '../tools/libreoffice';
import { light as run } from './light';

let folder: string;
const light = (...args: string[]) => run(folder, ...args);
const path = (name: string) => join(folder, name);
const write = (name: string, json: unknown) => writeFile(path(name), JSON.stringify(json));
const book = async (name: string) => readXlsx(new Uint8Array(await readFile(path(name))));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-template-'));
  await write('small.json', SMALL);
  await write('full.json', FULL);
  const serials = Array.from({ length: 30 }, (_, i) => `BIB-${i + 1}`);
  await writeFile(path('lot.txt'), `${serials.join('\r\n')}\r\n`);
  const points = [812, 805, 809, 798, 840, 811, 790, 788, 801];
  await writeFile(
    path('readings.csv'),
    `run,field,point,reading\n${points.map((reading, i) => `2,white,${i + 1},${reading}`).join('\n')}\n2,ambient,1,2\n2,last,1,838\n`,
  );
}, 60_000);
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('light template', () => {
  it('tells what a template would build, and what is left out', async () => {
    const { code, out, err } = await light('template', 'full.json');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Network, phase 2 \(invented\): 12 sheets\n/);
    expect(out).toContain('2. Offers, 4 lines to be filled in (asked figures linked to the need)');
    expect(out).toContain('- Acceptance: left out, since the serials of the lot are not given.');
    const known = await light(
      'template',
      'full.json',
      '--serials',
      'lot.txt',
      '--seed',
      '4 2',
      '--format',
      'json',
    );
    expect(JSON.parse(known.out)).toMatchObject({ title: FULL.title, left: [], sheets: { length: 13 } });
  });

  it.each<[string, unknown, RegExp]>([
    ['no template', { runs: [] }, /its field "format" must be "light-template"; it is missing/],
    ['an unknown field', { ...SMALL, macro: '=1+1' }, /macro: there is no such field/],
    ['a wrong field', { ...SMALL, title: 5 }, /title: it must be a text of 1 to 80 characters/],
  ])('refuses %s by its path', async (_, json, words) => {
    await write('bad.json', json);
    for (const args of [
      ['template', 'bad.json'],
      ['build', '--template', 'bad.json', '-o', 'bad.xlsx'],
    ]) {
      const { code, out, err } = await light(...args);
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(words);
    }
    await expect(readFile(path('bad.xlsx'))).rejects.toThrow();
  });
});

describe('light build --template', () => {
  it('builds the linked sheets, with readings in their runs and results calculated', async () => {
    const { code, err } = await light(
      'build',
      '--template',
      'small.json',
      'readings.csv',
      '-o',
      'small.xlsx',
      '--label',
      'Bid 7',
    );
    expect(err).toContain('small.xlsx: "Bid 7 Need", "Bid 7 Offers"');
    expect(code).toBe(0);
    const { sheets } = await book('small.xlsx');
    const cell = (sheet: string, name: string) => {
      const found = sheets.find((one) => one.name === sheet)!;
      return found.cells[viewOf(found).places.get(name.toLowerCase())!.address]?.value;
    };
    // 10 412.5 lm is the larger need of the two rooms, worked out in the test of the set; rounded up to 10 lm.
    expect(cell('Bid 7 Offers', 'AskedWhite')).toBe(10_420);
    // Mean of nine readings 7254 ÷ 9 = 806 lx, less 2 lx of ambient, times 3 m × 1.7 m = 5.1 m²: 804 × 5.1 = 4100.4 lm.
    expect(cell('Bid 7 Run =1+1', 'WhiteLightOutputPlain')).toBeCloseTo(4100.4, 8);
    expect(cell('Bid 7 Run =1+1', 'WhiteLightOutput')).toBeCloseTo(4100.4, 8);
    const results = await light('results', 'small.xlsx', '--sheet', 'Bid 7 Run =1+1', '--format', 'csv');
    expect(results.out).toContain('White light output,4100.4');
  });

  it('draws the sample of a lot, and its file is what LibreOffice computes too', async () => {
    const args = ['--serials', 'lot.txt', '--seed', '4 2', '--lot', 'Delivery 1', '--who', 'A. Person'];
    const { code, err } = await light('build', '--template', 'full.json', '-o', 'full.xlsx', ...args);
    expect([code, err.includes('left out')]).toEqual([0, false]);
    const [theirs] = await recalculate([new Uint8Array(await readFile(path('full.xlsx')))]);
    const index = theirs!.sheets.findIndex(({ name }) => name.startsWith('Acceptance'));
    const texts = Object.values(theirs!.sheets[index]!.cells).map(({ value }) => value);
    // A lot of 30, AQL 2.5: letter D, 5 units, none may fail (ISO 2859-1, tables 1 and 2-A).
    expect(texts.find((text) => String(text).startsWith('Lot Delivery 1: 0 of 5 units'))).toBeTruthy();
    expect(texts).toContain('limit is no number');
  });

  it('says what is in the way', async () => {
    expect((await light('build', '--template', 'small.json')).err).toMatch(/--output is missing/);
    await writeFile(path('stray.csv'), 'run,field,point,reading\n3,white,1,5\n');
    expect((await light('build', '--template', 'small.json', 'stray.csv', '-o', 'x.xlsx')).err).toMatch(
      /stray\.csv, line 2: there is no run 3/,
    );
    await writeFile(path('long.txt'), 'x'.repeat(81));
    const long = await light('build', '--template', 'full.json', '--serials', 'long.txt', '-o', 'x.xlsx');
    expect(long.err).toMatch(/a serial has at most 80 characters/);
    const label = await light('template', 'small.json', '--label', 'x'.repeat(121));
    expect(label.err).toMatch(/--label takes at most 120 characters/);
  });
});
