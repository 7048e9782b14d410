import { execFileSync } from 'node:child_process';
import { copyFile, lstat, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { linkedSheets } from '../../src/audit/kinds/links';
import { gridOf, ourSheets, viewOf } from '../../src/audit/view';
import { writeOut, writeWhole } from '../../src/cli/files';
import { readReadings } from '../../src/cli/readings';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import type { Book, BookCell } from '../../src/sheets/book';
import { logPlan, readLog, withLines } from '../../src/sheets/log';
import { PROGRAM } from '../../src/sheets/program';
import { realize } from '../../src/sheets/realize';
import { RUN_VERSION } from '../../src/sheets/run';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { measured, withSheet } from '../audit/sheets';
import { cases, isLong } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';
import { bookWith } from '../xlsx/sample';
import { lightProcess as asProcess, light as run } from './light';

let folder: string;
const light = (...args: string[]) => run(folder, ...args);
const lightProcess = (...args: string[]) => asProcess(folder, args);
const path = (name: string) => join(folder, name);

const SETUP = {
  projector: 'Unit 7 (invented)',
  mode: 'bright',
  image: { shape: 'rectangle', known: 'height', length: 1.2, unit: 'm', across: 4, down: 3 },
  rated: { white: 1500 },
  colour: 'none',
  black: false,
};
const SHEET = 'Run Unit 7 (invented) bright';
/** Semicolons and decimal commas, as many meters' software writes them. */
const READINGS = `field;point;reading;range
white;1;111,5;10\nwhite;2;112;10\nwhite;3;110;10\nwhite;4;115;10\nwhite;5;120;10\nwhite;6;114;10
white;7;109;10\nwhite;8;112,5;10\nwhite;9;110;10\nambient;1;4;\nlast;1;119;10\n`;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-'));
  await writeFile(path('run.json'), JSON.stringify(SETUP));
  await writeFile(path('run.csv'), READINGS);
  const { code, err } = await light('build', 'run.json', 'run.csv', '-o', 'run.xlsx');
  if (code !== 0) throw new Error(err);
}, 60_000);
afterAll(() => rm(folder, { recursive: true, force: true }));

const bookOf = async (name: string): Promise<Book> => readXlsx(new Uint8Array(await readFile(path(name))));
const save = async (name: string, book: Book) => writeFile(path(name), await writeXlsx(book));

describe('a file that is written', () => {
  const full = Object.assign(new Error('no space'), { code: 'ENOSPC' });
  const beside = async (name: string) => (await readdir(folder)).filter((each) => each.startsWith(name));

  it('takes the place of another when it is whole, and not before', async () => {
    await writeFile(path('old.bin'), 'whole');
    const half = writeWhole(path('old.bin'), true, async (to) => {
      await writeFile(to, 'ha');
      expect(await readFile(path('old.bin'), 'utf8')).toBe('whole');
      throw full;
    });
    await expect(half).rejects.toThrow(/old\.bin cannot be written: the disk is full\.$/);
    expect(await readFile(path('old.bin'), 'utf8')).toBe('whole');
    expect(await beside('old.bin')).toEqual(['old.bin']);
  });

  it('is not there where a new one could not be written', async () => {
    const half = writeWhole(path('new.bin'), false, async () => {
      throw full;
    });
    await expect(half).rejects.toThrow(/the disk is full/);
    expect(await beside('new.bin')).toEqual([]);
  });

  it('is refused where there is one, by two at once too', async () => {
    const both = await Promise.allSettled(['a', 'b'].map((text) => writeOut(path('two.bin'), text, false)));
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    await expect(writeOut(path('two.bin'), 'c', false)).rejects.toThrow(/exists already/);
    expect(await readFile(path('two.bin'), 'utf8')).toMatch(/^[ab]$/);
  });

  it('keeps the mode of the other, and a link to it', async () => {
    await writeFile(path('target.bin'), 'old', { mode: 0o600 });
    await symlink('target.bin', path('link.bin'));
    await writeOut(path('link.bin'), 'new', true);
    expect((await lstat(path('link.bin'))).isSymbolicLink()).toBe(true);
    expect(await readFile(path('target.bin'), 'utf8')).toBe('new');
    expect((await stat(path('target.bin'))).mode & 0o777).toBe(0o600);
  });

  it('goes into a pipe, and where a link points that leads nowhere yet', async () => {
    execFileSync('mkfifo', [path('pipe')]);
    const [came] = await Promise.all([
      readFile(path('pipe'), 'utf8'),
      writeOut(path('pipe'), 'through', true),
    ]);
    expect(came).toBe('through');
    expect((await stat(path('pipe'))).isFIFO()).toBe(true);
    await symlink('later.bin', path('nowhere.bin'));
    await writeOut(path('nowhere.bin'), 'there', true);
    expect(await readFile(path('later.bin'), 'utf8')).toBe('there');
  });
});

describe('light', () => {
  it('explains itself', async () => {
    const { code, out, err } = await light('--help');
    expect([code, err]).toEqual([0, '']);
    for (const word of [
      'build',
      'check',
      'results',
      'trace',
      'seal',
      'verify',
      'reopen',
      'plain',
      'key',
      'Exit code',
    ]) {
      expect(out).toContain(word);
    }
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
    expect(await light('--version')).toMatchObject({
      code: 0,
      err: '',
      out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
    });
  });

  it.each<[string, string[], RegExp]>([
    ['no command', [], /Usage: light COMMAND/],
    ['no such command', ['chekc'], /no command "chekc"/],
    ['no such option', ['check', '--shet', 'x'], /--shet/],
    ['an option without a value', ['trace', 'run.xlsx', '--sheet'], /--sheet/],
    ['no such format', ['check', 'run.xlsx', '--format', 'xml'], /text, csv or json/],
    ['no file', ['check'], /needs a file/],
    ['a file too many', ['check', 'a.xlsx', 'b.xlsx'], /one too many/],
    ['a file that is not there', ['check', 'nowhere.xlsx'], /cannot be read/],
    ['a folder', ['check', '.'], /cannot be read/],
    ['no such sheet', ['check', 'run.xlsx', '--sheet', 'Nowhere'], /The sheets are "Run Unit 7/],
    [
      'options of a template without one',
      ['build', 'run.json', '-o', 'x.xlsx', '--lot', 'Delivery 1'],
      /--lot says something of a template only/,
    ],
    [
      'no such cell',
      ['trace', 'run.xlsx', '--sheet', SHEET, '--cell', 'nothing here'],
      /neither a cell nor a name/,
    ],
    ['sealing without a name', ['seal', 'run.xlsx', '--sheet', SHEET, '-o', 'x.xlsx'], /--who is missing/],
    ['writing over a file', ['build', 'run.json', '-o', 'run.xlsx'], /exists already/],
  ])('answers %s with exit code 2, on standard error only', async (_, args, words) => {
    const { code, out, err } = await light(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/\n\s+at /);
  });
});

describe('light build', () => {
  it('makes a workbook whose results are what LibreOffice makes of it', async () => {
    const bytes = new Uint8Array(await readFile(path('run.xlsx')));
    const [theirs] = await recalculate([bytes]);
    const sheet = (await readXlsx(bytes)).sheets[0]!;
    const at = viewOf(sheet).places.get('whitelightoutputplain')!.address;
    const here = sheet.cells[at]!.value as number;
    // By hand: mean of the nine readings × 10 − 4 lx ambient, times 1.6 m × 1.2 m.
    expect(here).toBeCloseTo((10140 / 9 - 4) * 1.92, 9);
    expect(theirs!.sheets[0]!.cells[at]!.value).toBeCloseTo(here, 9);
  }, 120_000);

  it('takes several runs, tiles, repeats and words for over range', async () => {
    const runs = [
      { projector: 'A (invented)', colour: 'tiled patterns', repeats: 2, black: false },
      { projector: 'B (invented)', colour: 'none', checkerboard: true },
    ];
    await writeFile(path('two.json'), JSON.stringify({ runs }));
    const lines = [
      '# two runs, invented',
      'run,field,point,repeat,reading,range',
      '1,pattern b,9,2,41.5,',
      '1,white,5,1,OL,',
    ];
    await writeFile(path('two.csv'), `\uFEFF${lines.join('\r\n')}\r\n2,board,16,1,3,10\r\n`);
    expect(await light('build', 'two.json', 'two.csv', '-o', 'two.xlsx')).toMatchObject({ code: 0 });
    const book = await bookOf('two.xlsx');
    const value = (at: number, name: string, cell: number) => {
      const view = viewOf(book.sheets[at]!);
      const [from] = view.places.get(name)!.address.split(':');
      const [, column, row] = /([A-Z]+)(\d+)/.exec(from!)!;
      const [r, c] = [Math.floor(cell / 3), cell % 3];
      const key =
        name === 'boardreadings'
          ? `E${Number(row) + 3}`
          : `${String.fromCharCode(column!.charCodeAt(0) + c)}${Number(row) + r}`;
      return book.sheets[at]!.cells[key]?.value;
    };
    expect(value(0, 'patternbrepeat2', 8)).toBe(41.5);
    expect(value(0, 'whitereadings', 4)).toBe('over');
    expect(value(1, 'boardreadings', 15)).toBe(3);
    expect(value(1, 'boardrange', 0)).toBe(10);
  });

  it('takes a comma before three digits for a decimal mark where another cell proves it', () => {
    const readings = (...cells: string[]) =>
      readReadings(
        `field;point;reading\n${cells.map((cell, i) => `white;${i + 1};${cell}`).join('\n')}`,
        'r',
      ).map(({ reading }) => reading);
    expect(readings('1,234', '2,5')).toEqual([1.234, 2.5]);
    expect(readings('1,234', '0,125')).toEqual([1.234, 0.125]);
    expect(readings('1,234', '1234,567')).toEqual([1.234, 1234.567]);
    expect(readings('1.234', '248')).toEqual([1.234, 248]);
  });

  it.each<[string, string, RegExp]>([
    ['a comma among commas', 'field,point,reading\nwhite,1,"2,5"\n', /line 2: the reading is "2,5"/],
    [
      'a comma that may stand before decimals or thousands',
      'field\tpoint\treading\nwhite\t1\t248\nwhite\t2\t1,234\n',
      /line 3: the reading may be read in two ways: expected 1234 or 1\.234, came "1,234"/,
    ],
    [
      'such a comma beside decimals of both kinds',
      'field;point;reading\nwhite;1;2,5\nwhite;2;2.5\nwhite;3;1,234\n',
      /line 4: .*came "1,234"/,
    ],
    [
      'a point between thousands beside a decimal comma',
      'field;point;reading\nwhite;1;2,5\nwhite;2;1.234\n',
      /line 3: the reading may be read in two ways: expected 1234 or 1,234, came "1\.234"/,
    ],
    ['a unit', 'field,point,reading\nwhite,1,248 lx\n', /line 2: the reading is "248 lx"/],
    ['a minus', 'field,point,reading\nwhite,1,-3\n', /line 2.*at least 0/],
    ['an unknown field', 'field,point,reading\nmagenta,1,3\n', /no field "magenta"; the fields are white/],
    ['a tenth point', 'field,point,reading\nwhite,10,3\n', /line 2.*has 9 points, not 10/],
    ['a field that is not on the sheet', 'field,point,reading\nred,1,3\n', /line 2.*no RedReadings/],
    ['an unknown column', 'field,point,lux\nwhite,1,3\n', /no column "lux"/],
    ['no reading column', 'field,point\nwhite,1\n', /column reading is missing/],
    ['a quotation mark too many', 'field,point,reading\nwhite,1,"3\n', /never closed/],
    ['a run too many', 'run,field,point,reading\n2,white,1,3\n', /no run 2/],
    [
      'one point twice',
      'field,point,reading\nwhite,1,3\nwhite,2,4\nwhite,1,5\n',
      /line 4: .*point 1 of WhiteReadings was given in line 2 already/,
    ],
    [
      'two range factors for one point',
      'field,point,repeat,reading,range\nwhite,1,1,3,10\nwhite,1,1,,1\n',
      /line 3: .*point 1 of WhiteRange was given in line 2 already/,
    ],
    [
      'a number no program can hold',
      `field,point,reading\nwhite,1,1${'0'.repeat(400)}\n`,
      /line 2.*too large/,
    ],
    ['nothing', '', /the file is empty/],
  ])('refuses readings with %s, naming the line', async (_, text, words) => {
    await writeFile(path('bad.csv'), text);
    const { code, err } = await light('build', 'run.json', 'bad.csv', '-o', 'never.xlsx');
    expect(code).toBe(2);
    expect(err).toMatch(words);
    await expect(stat(path('never.xlsx'))).rejects.toThrow();
  });

  it.each<[string, string, RegExp]>([
    ['no JSON', '{', /not valid JSON/],
    ['a misspelt key', '{"projektor": "x"}', /projektor: there is no such field; known here: projector, /],
    [
      'a unit that does not exist',
      '{"meter": {"unit": "lux"}}',
      /meter\.unit: it must be one of "lx", "fc"; it is "lux"/,
    ],
    [
      'a length of 0',
      JSON.stringify({ image: { ...SETUP.image, length: 0 } }),
      /image\.length: it must be a number from 0\.1 to 60000; it is 0/,
    ],
    [
      'a day that the calendar does not have',
      '{"date": "2026-02-29"}',
      /date: it must be a date .*; it is "2026-02-29"/,
    ],
    ['a slip in the second run', '{"runs": [{}, {"gain": 0}]}', /runs\[1\]\.gain: it must be a number/],
    [
      'sides and diagonals of no image',
      '{"image": {"shape": "four sides", "unit": "m", "top": 2, "right": 1.25, "bottom": 2, "left": 1.25, "falling": 2.358, "rising": 1.8}}',
      /^[^[]*\. image: Four sides 2, 1\.25, 2, 1\.25 and a diagonal of 2\.358 make another/m,
    ],
    ['a list', '[]', /not a set-up but a list/],
    ['no run', '{"runs": []}', /runs/],
  ])('refuses a set-up with %s, naming the entry', async (_, text, words) => {
    await writeFile(path('bad.json'), text);
    const { code, err } = await light('build', 'bad.json', '-o', 'never.xlsx');
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });
});

describe('light check', () => {
  it('finds nothing in a fresh workbook, and shows no progress where nobody watches', async () => {
    const { code, out, err } = await light('check', 'run.xlsx');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/nothing found|note/);
  });

  it('finds what the pane finds: same workbook, same findings', async () => {
    const book = measured(1, 2);
    const at = viewOf(book.sheets[1]!).places.get('imagearea')!.address;
    const altered = withSheet(book, 1, (sheet) => ({
      ...sheet,
      isProtected: false,
      cells: { ...sheet.cells, [at]: { value: 3, style: sheet.cells[at]!.style } },
    }));
    await save('altered.xlsx', altered);
    const { code, out } = await light('check', 'altered.xlsx', '--format', 'json');
    expect(code).toBe(1);
    const { findings } = await check(await bookOf('altered.xlsx'));
    expect(JSON.parse(out).findings).toEqual(JSON.parse(JSON.stringify(findings)));
    expect(findings.some((finding) => finding.at === at && finding.kind === 'constant')).toBe(true);
    const rows = (await light('check', 'altered.xlsx', '--format', 'csv')).out;
    // A formula in a report stays a text for whoever opens it in a spreadsheet.
    expect(rows).toContain("'=IF(COUNT(ImageLength,AspectAcross,AspectDown)<3");
  });

  it('says so of a workbook that is not ours', async () => {
    await save('foreign.xlsx', bookWith({ cells: { A1: { value: 'milk' } } }));
    for (const command of ['check', 'results', 'verify'])
      for (const asked of [[], ['--sheet', 'Sheet1']])
        expect(await light(command, 'foreign.xlsx', ...asked)).toMatchObject({
          code: 2,
          out: '',
          err: expect.stringMatching(/^light: foreign\.xlsx has no sheet of ours/),
        });
  });

  it('does not pass over a sheet that was asked for and is not ours', async () => {
    const book = await bookOf('run.xlsx');
    const [milk] = bookWith({ cells: { A1: { value: 'milk' } } }).sheets;
    await save('mixed.xlsx', { ...book, sheets: [...book.sheets, { ...milk!, name: 'Milk' }] });
    for (const command of ['check', 'results', 'verify'])
      expect(await light(command, 'mixed.xlsx', '--sheet', SHEET, '--sheet', 'Milk')).toMatchObject({
        code: 2,
        out: '',
        err: expect.stringMatching(
          /^light: There is no sheet of ours called "Milk"\.\n +The sheets are "Run Unit 7/,
        ),
      });
  });
});

describe('light results and trace', () => {
  it('print the same number in every form', async () => {
    const json = JSON.parse((await light('results', 'run.xlsx', '--format', 'json')).out) as {
      name: string;
      value: number;
    }[];
    const white = json.find(({ name }) => name === 'WhiteLightOutput')!.value;
    const csv = (await light('results', 'run.xlsx', '--format', 'csv')).out;
    expect(csv).toContain(`WhiteLightOutput,White light output,${white},lm,`);
    expect((await light('results', 'run.xlsx')).out).toContain(String(Number(white.toPrecision(6))));
    const trace = ['trace', 'run.xlsx', '--sheet', SHEET, '--cell', 'WhiteLightOutput'];
    expect(JSON.parse((await light(...trace, '--format', 'json')).out).value).toBe(white);
    expect((await light(...trace, '--digits', '10')).out).toContain(
      'White, full field: numbers on the display = 111.5',
    );
    expect((await light(...trace, '--format', 'csv')).out).toContain('Level,Quantity,Value');
  });

  it('show a number that is no day of the calendar as it is', async () => {
    const plan = ageingPlan({ ...defaultAgeing('Unit 7 (invented)') }, 'a1');
    const at = plan.names.find(({ name }) => name === 'NextDay')!.range;
    const sheet = realize(plan);
    const altered = { ...sheet, cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: 1e9 } } };
    await save('noday.xlsx', { sheets: [altered], names: [] });
    const { code, out } = await light('results', 'noday.xlsx');
    expect([code, out]).toEqual([0, expect.stringMatching(/Day this falls on .* 1e\+9\n/i)]);
  });

  it('give the plain formula where the add-in was absent', async () => {
    const book = await bookOf('run.xlsx');
    const at = viewOf(book.sheets[0]!).places.get('whitelightoutput')!.address;
    const without = withSheet(book, 0, (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: { error: '#NAME?' } } },
    }));
    await save('without.xlsx', without);
    expect((await light('results', 'without.xlsx')).out).toMatch(
      /White light output +\d+\.?\d* lm {2}\(plain formula\)/,
    );
  });
});

describe('light key', () => {
  it('keeps a private key from others even where it is written over a file they may read', async () => {
    await writeFile(path('old.private.jwk'), 'anything', { mode: 0o644 });
    expect(await light('key', 'old', '--force')).toMatchObject({ code: 0 });
    expect((await stat(path('old.private.jwk'))).mode & 0o077).toBe(0);
  });

  it('writes both files or none', async () => {
    await writeFile(path('half.public.jwk'), 'somebody else’s');
    expect(await light('key', 'half')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/half\.public\.jwk exists already/),
    });
    await expect(stat(path('half.private.jwk'))).rejects.toThrow();
  });
});

describe('light seal, verify and reopen', () => {
  it('seal, hold, break, reopen and sign', async () => {
    const who = ['--sheet', SHEET, '--who', 'A. Nobody'];
    expect(await light('key', 'mine')).toMatchObject({ code: 0, out: '' });
    expect((await stat(path('mine.private.jwk'))).mode & 0o077).toBe(0);
    expect(await light('key', 'other')).toMatchObject({ code: 0 });
    expect(
      await light('seal', 'run.xlsx', ...who, '--key', 'mine.private.jwk', '-o', 'sealed.xlsx'),
    ).toMatchObject({
      code: 0,
      err: expect.stringMatching(/does not show that the readings were ever seen/),
    });
    expect(await light('verify', 'sealed.xlsx', '--key', 'mine.public.jwk')).toMatchObject({
      code: 0,
      out: expect.stringMatching(/the seal holds[\s\S]*signature valid, key /),
    });
    expect(await light('verify', 'sealed.xlsx', '--key', 'other.public.jwk')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/another key/),
    });
    expect(await light('verify', 'run.xlsx')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/not sealed/),
    });

    const book = await bookOf('sealed.xlsx');
    const at = viewOf(book.sheets[0]!).places.get('ratedwhite')!.address;
    const changed = withSheet(book, 0, (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: 1400 } },
    }));
    await save('changed.xlsx', changed);
    const broken = await light('verify', 'changed.xlsx', '--format', 'json');
    expect(broken.code).toBe(1);
    expect(JSON.parse(broken.out)[0].differences).toEqual([
      expect.objectContaining({ group: 'cell', key: at, change: 'changed' }),
    ]);

    // With its sheet the seal goes; only the register of the workbook knows that there was one.
    await save('gone.xlsx', { ...book, sheets: [{ ...book.sheets[0]!, name: 'Other', names: [] }] });
    expect(await light('verify', 'gone.xlsx')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/A SEAL HAS NO SHEET/),
    });
    expect(await light('check', 'gone.xlsx')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^No: 1 error[\s\S]*no sheet bears it/),
    });

    // The seal alone is taken off: the sheet says nothing of it, and the register does.
    const bare = withSheet(book, 0, (sheet) => ({
      ...sheet,
      names: sheet.names.filter(({ name }) => !/^LightSeal/.test(name)),
    }));
    await save('bare.xlsx', bare);
    expect(await light('check', 'bare.xlsx')).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^No: 1 error[\s\S]*error: The seal of .* is gone\./),
    });
    const deleted = await light('verify', 'bare.xlsx', '--format', 'json');
    expect([deleted.code, JSON.parse(deleted.out)[0].state]).toEqual([1, 'deleted']);
    expect((await light('verify', 'bare.xlsx')).out).toMatch(/: THE SEAL WAS DELETED\n/);
    expect((await light('plain', 'bare.xlsx', 'bare-plain.xlsx')).code).toBe(0);
    const [cover] = (await bookOf('bare-plain.xlsx')).sheets;
    expect(JSON.stringify(cover!.cells)).toContain('was sealed, and THE SEAL WAS DELETED');

    const reopened = await light(
      'reopen',
      'sealed.xlsx',
      ...who,
      '--why',
      'wrong rated value',
      '-o',
      'open.xlsx',
    );
    expect(reopened.code).toBe(0);
    expect((await light('verify', 'open.xlsx')).out).toMatch(/history: reopened .* wrong rated value/);
    expect((await light('verify', 'sealed.xlsx', '--format', 'csv')).out).toMatch(/^sheet,state/);
  });

  // Elements and attributes of ECMA-376-1, 18.3.1 and 18.2.29.
  it('keeps what a Book does not know: charts, pictures, links on cells, filters, hidden rows, passwords', async () => {
    const parts = unzipSync(new Uint8Array(await readFile(path('run.xlsx'))));
    const put = (part: string, ...changes: (readonly [RegExp, string])[]) => {
      for (const [at, added] of changes) {
        const before = strFromU8(parts[part]!);
        parts[part] = strToU8(before.replace(at, added));
        expect(strFromU8(parts[part]!), added).not.toBe(before);
      }
    };
    parts['xl/charts/chart1.xml'] = strToU8('<c/>');
    parts['xl/media/image1.png'] = new Uint8Array([1, 2, 3]);
    parts['customXml/item1.xml'] = strToU8('<other xmlns="urn:other"/>');
    const added = [
      [/<pageMargins/, '<hyperlinks><hyperlink ref="A1" location="B1"/></hyperlinks>$&'],
      [/<row r="2"/, '$& hidden="1"'],
      [/<sheetProtection/, '$& password="CC1A"'],
    ] as const;
    put('xl/worksheets/sheet1.xml', ...added);
    put('xl/workbook.xml', [/<sheets>/, '<workbookProtection lockStructure="1"/>$&']);
    await writeFile(path('more.xlsx'), zipSync(parts));
    const args = ['seal', 'more.xlsx', '--sheet', SHEET, '--who', 'A. Nobody', '-o', 'kept-all.xlsx'];
    expect(await light(...args)).toMatchObject({ code: 0 });
    const after = unzipSync(new Uint8Array(await readFile(path('kept-all.xlsx'))));
    const isSame = (part: string) =>
      Buffer.compare(Buffer.from(after[part]!), Buffer.from(parts[part]!)) === 0;
    expect(Object.keys(after).sort()).toEqual(Object.keys(parts).sort());
    expect(Object.keys(parts).filter((part) => !isSame(part))).toEqual(['xl/workbook.xml']);
    expect(strFromU8(after['xl/workbook.xml']!)).toContain('lockStructure="1"');
    expect(await light('verify', 'kept-all.xlsx')).toMatchObject({ code: 0 });
  });

  it.each(['run.json', 'run.csv', 'run.xlsx'])('refuses %s as a key', async (file) => {
    const { code, err } = await light('verify', 'run.xlsx', '--key', file);
    expect(code).toBe(2);
    expect(err).toMatch(/not a public key|not valid JSON|not a text file/);
  });
});

describe('light update', () => {
  const frozen = (file: string) => join(import.meta.dirname, '../frozen/first', `${file}.xlsx`);

  it('puts a sheet of today beside one of before, and lists what differs', async () => {
    await copyFile(frozen('certificate-plainest'), path('before.xlsx'));
    const old = await bookOf('before.xlsx');
    const run = ourSheets(old).find(({ identity }) => identity?.kind === 'run')!;
    const args = ['update', 'before.xlsx', '--sheet', run.sheet.name, '--who', 'A. Nobody'];
    const { code, err } = await light(...args, '-o', 'after.xlsx');
    expect([code, err]).toEqual([
      0,
      expect.stringMatching(/stays as it is[\s\S]*still go to the older sheet/),
    ]);
    const now = await bookOf('after.xlsx');
    expect(now.sheets.slice(0, old.sheets.length)).toEqual(old.sheets);
    const [made, table] = now.sheets.slice(old.sheets.length).map(viewOf);
    expect([made!.identity?.version, table!.identity?.kind]).toEqual([RUN_VERSION, 'findings']);
    // What differs does so by a change of method, and by nothing else.
    const told = Object.values(table!.sheet.cells).map(({ value }) => String(value));
    expect(told.filter((words) => words.startsWith('It does not follow'))).toEqual([]);
    for (const name of ['WhiteReadings', 'Projector', 'WhiteLightOutput'] as const)
      expect(gridOf(made!, name), name).toEqual(gridOf(run, name));
    expect([viewOf(old.sheets[0]!).builtBy, made!.builtBy]).toEqual([undefined, PROGRAM]);
    // As today's program builds it, to the last rule.
    const { out } = await light('check', 'after.xlsx', '--sheet', made!.sheet.name);
    expect(out).not.toMatch(/error|warning/);
    const moved = await light(...args, '--links', '-o', 'moved.xlsx');
    expect(moved.err).toMatch(/links of .* go to the new sheet/);
    const linked = await bookOf('moved.xlsx');
    const paper = ourSheets(linked).find(({ identity }) => identity?.kind === 'certificate')!;
    expect(linkedSheets(paper)).toEqual([made!.sheet.name]);
    expect((await light('check', 'moved.xlsx')).out).not.toMatch(/error/);
  });

  it('refuses a sheet that is of today', async () => {
    const { code, err } = await light('update', 'run.xlsx', '--sheet', SHEET, '-o', 'none.xlsx');
    expect([code, err]).toEqual([2, expect.stringMatching(/has today’s layout already/)]);
  });
});

describe('light repair', () => {
  it('puts back names, formulas, words, number formats, locks, rules and protection in the file itself, and says what stood there', async () => {
    const good = await bookOf('run.xlsx');
    const [run] = ourSheets(good);
    const at = (name: string) => run!.places.get(name.toLowerCase())!.address.split(':')[0]!;
    const [area, output, reading] = [at('ImageArea'), at('WhiteLightOutput'), at('WhiteReadings')];
    const hurt = withSheet(good, good.sheets.indexOf(run!.sheet), (sheet) => ({
      ...sheet,
      cells: {
        ...sheet.cells,
        A1: { ...sheet.cells.A1!, value: 'Another title' },
        [area]: { style: { ...sheet.cells[area]!.style!, locked: false }, value: 9.75 },
        [output]: { ...sheet.cells[output]!, style: { ...sheet.cells[output]!.style!, format: '0;;"pass"' } },
        [reading]: { ...sheet.cells[reading]!, style: { ...sheet.cells[reading]!.style!, locked: true } },
      },
      names: sheet.names
        .filter(({ name }) => name !== 'WhiteReadings')
        .map((name) => (name.name === 'Projector' ? { ...name, refersTo: '=#REF!' } : name)),
      validations: sheet.validations.slice(3),
      isProtected: false,
    }));
    const parts = unzipSync(await writeXlsx(hurt));
    // Parts of other programs, and one thing of the sheet that a Book does not know.
    parts['customXml/item1.xml'] = strToU8('<other xmlns="urn:other"/>');
    const one = 'xl/worksheets/sheet1.xml';
    const link = '<hyperlinks><hyperlink ref="AZ1" location="B1"/></hyperlinks>';
    parts[one] = strToU8(strFromU8(parts[one]!).replace(/<pageMargins/, `${link}$&`));
    await writeFile(path('hurt.xlsx'), zipSync(parts));
    expect((await light('check', 'hurt.xlsx')).code).toBe(1);
    const { code, err } = await light('repair', 'hurt.xlsx', '--who', 'A. Nobody', '-o', 'mended.xlsx');
    expect([code, err]).toEqual([0, expect.stringMatching(/Yes: .* though not everything is as built/)]);
    expect(err).toContain(`${area}: formula put back; before: 9.75`);
    expect(err).toMatch(/WhiteReadings: name put back/);
    expect(err).toContain(`${output}: number format put back; before: 0;;"pass"`);
    expect(err).toContain(`${area}: lock put back; before: open`);
    expect(err).toContain(`${reading}: lock put back; before: locked`);
    expect((await light('check', 'mended.xlsx')).code).toBe(0);
    const now = viewOf((await bookOf('mended.xlsx')).sheets[good.sheets.indexOf(run!.sheet)]!);
    for (const name of ['WhiteReadings', 'Projector', 'ImageArea', 'WhiteLightOutput'] as const)
      expect(gridOf(now, name), name).toEqual(gridOf(run!, name));
    for (const cell of [area, output, reading]) {
      const [{ style, ...contents }, { style: was, ...before }] = [now, run!].map(
        (each) => each.sheet.cells[cell]!,
      ) as [BookCell, BookCell];
      expect(contents, cell).toEqual(before);
      expect({ format: 'General', ...style }, cell).toEqual({ format: 'General', ...was });
    }
    expect(now.sheet.isProtected).toBe(true);
    const after = unzipSync(new Uint8Array(await readFile(path('mended.xlsx'))));
    expect(strFromU8(after['customXml/item1.xml']!)).toBe('<other xmlns="urn:other"/>');
    expect(strFromU8(after[one]!)).toContain(link);
  });

  it('calculates results anew where they alone are old, says so, and keeps everything else', async () => {
    const good = await bookOf('run.xlsx');
    const at = viewOf(good.sheets[0]!).places.get('whitereadings')!.address.split(':')[0]!;
    const old = withSheet(good, 0, (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: 118 } },
    }));
    await save('stale.xlsx', old);
    expect(await light('check', 'stale.xlsx')).toMatchObject({
      code: 1,
      err: expect.stringContaining('light repair stale.xlsx -o'),
    });
    const { code, err } = await light('repair', 'stale.xlsx', '-o', 'anew.xlsx');
    expect([code, err]).toEqual([
      0,
      expect.stringMatching(
        /”, \d+ results calculated anew\nanew\.xlsx: \d+ results calculated anew\. Yes: /,
      ),
    ]);
    expect((await light('check', 'anew.xlsx')).code).toBe(0);
    const value = async (file: string) =>
      gridOf(viewOf((await bookOf(file)).sheets[0]!), 'WhiteLightOutput')[0]![0] as number;
    // Area of 1.6 m × 1.2 m; the first of nine readings is higher by 6.5 × 10 lx.
    expect((await value('anew.xlsx')) - (await value('run.xlsx'))).toBeCloseTo((1.92 * 65) / 9, 6);
    expect(await value('stale.xlsx')).toBe(await value('run.xlsx'));
  });

  it('writes a copy where nothing is wrong, and no file where nothing could be done', async () => {
    const right = await light('repair', 'run.xlsx', '-o', 'same.xlsx');
    expect(right).toMatchObject({
      code: 0,
      err: expect.stringMatching(
        /^same\.xlsx: a copy, since there was nothing to put back\. Yes: everything/,
      ),
    });
    expect((await readFile(path('same.xlsx'))).equals(await readFile(path('run.xlsx')))).toBe(true);
    const parts = unzipSync(new Uint8Array(await readFile(path('run.xlsx'))));
    const one = 'xl/worksheets/sheet1.xml';
    const box = '<protectedRanges><protectedRange sqref="A1:B9" name="All"/></protectedRanges>';
    parts[one] = strToU8(strFromU8(parts[one]!).replace(/<sheetProtection[^>]*\/>/, `$&${box}`));
    await writeFile(path('opened.xlsx'), zipSync(parts));
    const beyond = await light('repair', 'opened.xlsx', '-o', 'beyond.xlsx');
    expect(beyond).toMatchObject({
      code: 1,
      err: expect.stringMatching(/nothing to put back .*; no file was written\. No: 1 warning/),
    });
    await expect(stat(path('beyond.xlsx'))).rejects.toThrow();
  });

  it('leaves sealed sheets and those of earlier layouts', async () => {
    const old = join(import.meta.dirname, '../frozen/first/sealed-command-line.xlsx');
    const { err } = await light('repair', old, '-o', 'none.xlsx');
    expect(err).toMatch(/is left alone: it is sealed; reopen it first/);
    expect(err).toMatch(/a copy, since there was nothing to put back/);
    expect((await readFile(path('none.xlsx'))).equals(await readFile(old))).toBe(true);
  });
});

describe('light plain', () => {
  it('makes a copy without functions, whose numbers are the same', async () => {
    const { code, out, err } = await light('plain', 'run.xlsx', 'plain.xlsx', '--who', 'A. Nobody');
    expect([code, out]).toEqual([0, '']);
    expect(err).toMatch(new RegExp(`^"${SHEET.replace(/[()]/g, '.')}": \\d+ results stand as values`));
    const [before, after] = [await bookOf('run.xlsx'), await bookOf('plain.xlsx')];
    expect(after.sheets.map(({ name }) => name)).toEqual(['Plain copy', SHEET]);
    const { cells } = after.sheets[1]!;
    for (const [at, { value }] of Object.entries(before.sheets[0]!.cells))
      expect(cells[at]!.value ?? '', at).toEqual(value ?? '');
    const formulas = Object.values(cells).flatMap(({ formula }) => formula ?? []);
    expect(formulas.filter((formula) => formula.includes('LIGHT.'))).toEqual([]);
    // It can be read like any other, and says of what kind each number is.
    expect((await light('results', 'plain.xlsx')).code).toBe(0);
  });

  it('refuses what it cannot do, and never writes over a file unasked', async () => {
    expect(await light('plain', 'run.xlsx')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/where to write/),
    });
    await writeFile(path('kept.xlsx'), 'kept');
    expect(await light('plain', 'run.xlsx', 'kept.xlsx')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/exists already/),
    });
    await light('plain', 'run.xlsx', 'once.xlsx');
    expect(await light('plain', 'once.xlsx', 'twice.xlsx')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/No cell of this workbook calls a function of ours/),
    });
  });
});

describe('a log in the workbook', () => {
  it('gets a line of each seal and opening, below those that are there', async () => {
    const book = await bookOf('run.xlsx');
    const line = {
      when: '2026-11-25T09:30:00Z',
      who: 'x',
      what: 'built',
      sheet: '',
      detail: '',
      program: '0',
    } as const;
    await save('logged.xlsx', {
      ...book,
      sheets: [...book.sheets, withLines(realize(logPlan('log1')), [line])],
    });
    await light('seal', 'logged.xlsx', '--sheet', SHEET, '--who', '=A. Nobody', '-o', 'logged2.xlsx');
    await light(
      'reopen',
      'logged2.xlsx',
      '--sheet',
      SHEET,
      '--who',
      'B',
      '--why',
      '=1+1',
      '-o',
      'logged3.xlsx',
    );
    const log = (await bookOf('logged3.xlsx')).sheets.find(({ name }) => name === 'Log')!;
    expect(readLog(log).map(([, who, what, sheet]) => [who, what, sheet])).toEqual([
      ['x', 'built', ''],
      ['=A. Nobody', 'sealed', SHEET],
      ['B', 'reopened', SHEET],
    ]);
    expect(readLog(log).at(-1)![4]).toBe('=1+1');
    expect(Object.values(log.cells).every(({ formula }) => formula === undefined)).toBe(true);
  });
});

describe('hostile files are refused in bounded time and memory', () => {
  let packed: Uint8Array | undefined;
  /** Pressed once: 200 MB take their time. */
  function bomb(good: Uint8Array): Uint8Array {
    const zeros = () => ({ 'xl/worksheets/sheet1.xml': new Uint8Array(200_000_000) });
    packed ??= zipSync({ ...unzipSync(good), ...zeros() }, { level: 1 });
    return packed;
  }

  const CASES: readonly [string, (good: Uint8Array) => Uint8Array, RegExp][] = [
    ['nothing', () => new Uint8Array(), /not an \.xlsx workbook/],
    ['a text', () => strToU8('point;lx\n1;248\n'), /not an \.xlsx workbook/],
    ['cut short', (good) => good.subarray(0, good.length >> 1), /cut short/],
    ['a zip bomb', bomb, /too big/],
    ['17 MB', () => new Uint8Array(17_000_000), /at most/],
    ['with macros', (good) => zipSync({ ...unzipSync(good), 'xl/vbaProject.bin': strToU8('x') }), /macros/],
    ['locked', () => new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), /password/],
    ['a zip of something else', () => zipSync({ 'a.txt': strToU8('a') }), /not an \.xlsx workbook/],
    [
      'without its notes',
      (good) => {
        const { 'xl/comments1.xml': notes, ...rest } = unzipSync(good);
        expect(notes).toBeDefined();
        return zipSync(rest);
      },
      /damaged: its part xl\/comments1\.xml is missing/,
    ],
    [
      'with a reading that is no number',
      (good) => {
        const parts = unzipSync(good);
        const sheet = strFromU8(parts['xl/worksheets/sheet1.xml']!);
        const other = sheet.replace('<v>111.5</v>', '<v>111,5</v>');
        expect(other).not.toBe(sheet);
        return zipSync({ ...parts, 'xl/worksheets/sheet1.xml': strToU8(other) });
      },
      /damaged: cell [A-Z]+\d+ of the sheet "Run Unit 7 .*is a number but holds "111,5"/,
    ],
  ];
  const READERS = ['check', 'results', 'verify', 'plain'];
  it.each(CASES)('%s', async (_, make, words) => {
    await writeFile(path('hostile.xlsx'), make(new Uint8Array(await readFile(path('run.xlsx')))));
    for (const command of READERS) {
      const more = command === 'plain' ? ['never.xlsx'] : [];
      const { code, out, err, busy } = await light(command, 'hostile.xlsx', ...more);
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(words);
      expect(busy).toBeLessThan(10_000);
    }
  });

  it('what is largest, in little memory', async () => {
    const large = CASES.filter(([name]) => ['a zip bomb', '17 MB'].includes(name));
    expect(large).toHaveLength(2);
    for (const [, make, words] of large) {
      await writeFile(path('large.xlsx'), make(new Uint8Array(await readFile(path('run.xlsx')))));
      // They read alike, as the tests above say of each.
      for (const command of cases(['check'], ['results', 'verify', 'plain'])) {
        const more = command === 'plain' ? ['never.xlsx'] : [];
        const { code, out, err } = await lightProcess(command, 'large.xlsx', ...more);
        expect([code, out]).toEqual([2, '']);
        expect(err).toMatch(words);
      }
    }
  });

  it('formulas and names made to hurt', async () => {
    const book = await bookOf('run.xlsx');
    const nasty = [
      `=${'('.repeat(3000)}1${')'.repeat(3000)}`,
      `=${'-'.repeat(8000)}1`,
      `="${'a'.repeat(8000)}"`,
      `=${'A1:XFD1048576,'.repeat(400)}1`,
      `=${'[1]'.repeat(2000)}A1`,
    ];
    const cells = Object.fromEntries(nasty.map((formula, i) => [`N${i + 1}`, { value: 1, formula }]));
    const hurt = withSheet(book, 0, (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, ...cells },
      names: [
        ...sheet.names,
        { name: 'Whole', refersTo: `='${SHEET}'!$A$1:$XFD$1048576` },
        { name: 'LightSeal', refersTo: `="${'|'.repeat(200)}"` },
      ],
      validations: [{ ...sheet.validations[0]!, range: 'A1:XFD1048576' }, ...sheet.validations],
    }));
    await save('hurt.xlsx', hurt);
    for (const args of [
      ['check'],
      ['verify'],
      ['trace', '--sheet', SHEET, '--cell', 'Whole'],
      ['trace', '--sheet', SHEET, '--cell', 'N4'],
    ]) {
      const [command, ...more] = args as [string, ...string[]];
      const { code, out, err, busy } = await light(command, 'hurt.xlsx', ...more);
      expect([0, 1], err).toContain(code);
      expect(busy).toBeLessThan(10_000);
      if (isLong || more.includes('Whole'))
        expect(await lightProcess(command, 'hurt.xlsx', ...more)).toMatchObject({ code, out, err });
    }
  }, 60_000);
});

describe('light as a process of its own', () => {
  it('ends with the exit codes, results on standard output and the rest on standard error', async () => {
    const trace = ['trace', 'run.xlsx', '--sheet', SHEET, '--cell', 'WhiteLightOutput'];
    for (const [code, args] of [
      [0, trace],
      [1, ['verify', 'run.xlsx']],
      [2, ['check', 'nowhere.xlsx']],
    ] as const) {
      const { busy, ...here } = await light(...args);
      expect(here.code).toBe(code);
      expect(await lightProcess(...args)).toEqual(here);
    }
  });

  it('ends without a word where its reader has seen enough', async () => {
    expect(await asProcess(folder, ['results', 'run.xlsx'], { deaf: true })).toEqual({
      code: 0,
      out: '',
      err: '',
    });
  });
});
