import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { reportRows, reportText } from '../../src/audit/check/text';
import { broken, normal } from '../../src/audit/formula/normal';
import { viewOf } from '../../src/audit/view';
import type { Book, BookCell, BookSheet } from '../../src/sheets/book';
import { EXAMPLES } from './examples';
import { measured, smallest, withSheet } from './sheets';

const book = smallest();
const sheet = book.sheets[0]!;
const at = (name: string) => viewOf(sheet).places.get(name.toLowerCase())!.address;

/** What a check finds on the sheet after one cell was changed. */
async function changedBy(change: (sheet: BookSheet) => BookSheet): Promise<readonly Finding[]> {
  return (await check(withSheet(book, 0, change))).findings;
}
const put = (address: string, cell: Partial<BookCell>) => (s: BookSheet) => ({
  ...s,
  cells: { ...s.cells, [address]: { ...s.cells[address]!, ...cell } },
});

/*
 * Forms that hosts leave behind; each was reported to the maker of the host (issues 2568, 3558, 3872, 4811 on
 * calls, 4403 on names, 6611 on #NAME? that stays, of the public list of Office.js).
 */
describe('forms that hosts leave behind', () => {
  const call = sheet.cells[at('WhiteLightOutput')]!.formula!;
  it.each([
    ['[2]!_xldudf_', call.replace('LIGHT.OUTPUT', '[2]!_xldudf_LIGHT_OUTPUT')],
    ['_xldudf_', call.replace('LIGHT.OUTPUT', '_xldudf_LIGHT_OUTPUT')],
    ["'Tool.xla'!_xldudf_", call.replace('LIGHT.OUTPUT', "'Tool.xla'!_xldudf_LIGHT_OUTPUT")],
    ['Tool.xlam!_xldudf_', call.replace('LIGHT.OUTPUT', 'Tool.xlam!_xldudf_LIGHT_OUTPUT')],
  ])('a call written as %s… is recognised, with Refresh as the remedy', async (_, formula) => {
    const address = at('WhiteLightOutput');
    expect(broken(formula)?.meant).toBe(call);
    const findings = await changedBy(put(address, { formula, value: { error: '#NAME?' } }));
    expect(findings.filter((each) => each.at === address)).toEqual([
      expect.objectContaining({ kind: 'broken', severity: 'warning', remedy: 'refresh' }),
    ]);
  });

  it('#NAME? that stuck is told from an altered formula', async () => {
    const address = at('WhiteLightOutput');
    const findings = await changedBy(put(address, { value: { error: '#NAME?' } }));
    const own = findings.filter((each) => each.at === address);
    expect(own).toEqual([expect.objectContaining({ kind: 'broken', found: '#NAME?', remedy: 'refresh' })]);
  });

  it.each(["='[1]NAME'!ADDRESS", '=[1]NAME!ADDRESS'])('a name written as %s', async (form) => {
    const found = await changedBy((s) => ({
      ...s,
      name: 'Run',
      names: s.names.map((each) => ({
        ...each,
        refersTo:
          each.name === 'ImageArea'
            ? form.replace('NAME', 'Run').replace('ADDRESS', () => each.refersTo.split('!').at(-1)!)
            : each.refersTo.replace(/^='.*'!/, "='Run'!"),
      })),
    }));
    expect(found.filter(({ kind }) => kind === 'name')).toEqual([
      expect.objectContaining({
        message: expect.stringMatching(/ImageArea was written as \[1\]/),
        remedy: 'restore-name',
      }),
    ]);
  });

  it('a broken name of the workbook', async () => {
    const { findings } = await check({ ...book, names: [{ name: 'Total', refersTo: '=[1]Sheet1!$A$1' }] });
    expect(findings.find(({ sheet: where }) => where === '')).toMatchObject({
      kind: 'name',
      expected: '=Sheet1!$A$1',
    });
  });
});

describe('what a check finds beside single changes', () => {
  it('readings that no rule would let in', async () => {
    const first = at('WhiteReadings').split(':')[0]!;
    for (const value of [-3, 250_000, 'about 600', true]) {
      const findings = await changedBy(put(first, { value }));
      expect(
        findings.some((each) => each.at === first && each.kind === 'reading' && each.severity === 'error'),
        `${value}`,
      ).toBe(true);
    }
  });

  it('a forgotten range factor, a drift, much ambient light', async () => {
    const words = async (change: (s: BookSheet) => BookSheet) =>
      (await changedBy(change)).map(({ message }) => message).join(' ');
    const [first] = at('WhiteReadings').split(':');
    expect(await words(put(first!, { value: 61 }))).toMatch(/Is the range factor right/);
    expect(await words(put(at('LastReading'), { value: 600 }))).toMatch(/centre drifted/);
    expect(await words(put(at('AmbientReadings'), { value: 60 }))).toMatch(/much ambient light/);
  });

  it('a unit of lengths that cannot be right', async () => {
    const findings = await changedBy(put(at('ImageWidth'), { value: 1600 }));
    expect(findings).toContainEqual(expect.objectContaining({ kind: 'units', at: at('ImageWidth') }));
  });

  it('one meter in two units on two sheets', async () => {
    const two = measured(1, 2);
    const sheets = two.sheets.map((s, i) => {
      const place = (name: string) => viewOf(s).places.get(name)!.address;
      return put(place('meterunit'), { value: i === 0 ? 'lx' : 'fc' })(
        put(place('meter'), { value: 'Meter 3' })(s),
      );
    });
    const { findings } = await check({ ...two, sheets });
    expect(findings).toContainEqual(
      expect.objectContaining({
        kind: 'units',
        sheet: sheets[1]!.name,
        message: expect.stringMatching(/“Meter 3” reads in fc here and in lx/),
      }),
    );
  });

  it.each(Object.entries(EXAMPLES))('all names but the mark gone: %s', async (_, make) => {
    const whole = make();
    const place = whole.sheets.length - 1;
    const { findings } = await check(
      withSheet(whole, place, (s) => ({ ...s, names: s.names.filter(({ name }) => name === 'LightSheet') })),
    );
    const own = findings.filter((each) => each.sheet === whole.sheets[place]!.name);
    expect(own.some(({ kind }) => kind === 'version' || kind === 'name')).toBe(true);
  });

  it('a layout of another version, and a kind it does not know', async () => {
    const as = (mark: string) =>
      changedBy((s) => ({
        ...s,
        names: s.names.map((each) =>
          each.name === 'LightSheet' ? { ...each, refersTo: `="${mark}"` } : each,
        ),
      }));
    expect(await as('run;99;abc')).toEqual([
      expect.objectContaining({ kind: 'version', message: expect.stringMatching(/newer/) }),
    ]);
    // Reports and the log have no layout to be compared with.
    expect(await as('log;1;abc')).toEqual([]);
    expect(await as('nonsense')).toEqual([expect.objectContaining({ kind: 'version' })]);
  });
});

it('values in place of our functions are notes in a plain copy, and errors elsewhere', async () => {
  const address = at('WhiteLightOutput');
  const twin = at('WhiteLightOutputPlain');
  const spoiled = withSheet(book, 0, (s) => ({
    ...s,
    cells: {
      ...s.cells,
      [address]: { value: s.cells[address]!.value },
      [twin]: { value: s.cells[twin]!.value },
    },
  }));
  const mark = {
    name: 'LightPlainCopy',
    refersTo: '="light-plain|1|2026-11-25T09:30:00Z|0.1.0"',
    hidden: true,
  };
  const severities = async (names: Book['names']) =>
    (await check({ ...spoiled, names })).findings
      .filter(({ kind }) => kind === 'constant' || kind === 'kept')
      .map((finding) => [finding.at, finding.severity]);
  expect(await severities([])).toEqual([
    [address, 'error'],
    [twin, 'error'],
  ]);
  // A constant over a plain formula is one everywhere.
  expect((await severities([mark])).sort()).toEqual([
    [address, 'note'],
    [twin, 'error'],
  ]);
});

describe('a check', () => {
  it('tells how far it is, and stops when told to', async () => {
    const four = measured(1, 2, 3, 4);
    const seen: number[] = [];
    await check(four, { progress: ({ done, part, total }) => seen.push((done + part) / total) });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen).toEqual(expect.arrayContaining([0, 0.25, 0.5, 0.75, 1]));
    // Many steps a sheet, so that a page can draw between them.
    expect(seen.length).toBeGreaterThan(4 * 20);
    let [done, part] = [0, 0];
    const report = await check(four, {
      progress: (state) => {
        [done, part] = [state.done, state.part];
      },
      isCancelled: () => done === 2 && part > 0.5,
    });
    // In the middle of the third sheet: what was found on whole sheets counts.
    expect([report.isCancelled, report.sheets.length]).toEqual([true, 2]);
    expect(reportText(report)).toMatch(/cancelled before the end/);
  });

  it('can be of one sheet only, and names the sheets that are not ours', async () => {
    const name = book.sheets[0]!.name;
    const foreign = { ...sheet, name: 'Foreign', names: [] };
    const report = await check({ ...book, sheets: [...book.sheets, foreign] }, { sheets: [name] });
    expect([report.sheets, report.others]).toEqual([[name], ['Foreign']]);
  });

  it('changes nothing', async () => {
    const before = JSON.stringify(book);
    await check(book);
    expect(JSON.stringify(book)).toBe(before);
  });

  it('comes as rows of texts', async () => {
    const report = await check(withSheet(book, 0, (s) => ({ ...s, isProtected: false })));
    expect(
      reportRows(report)
        .flat()
        .every((cell) => typeof cell === 'string'),
    ).toBe(true);
  });
});

it('formulas read the same whatever a program makes of their spelling', () => {
  const own = "Anna's run";
  const same = ['=SUM(B2:D4)*0.000000001', '=sum( $B$2:$D$4 )*1E-9', "=SUM('Anna''s run'!B2:D4)*1e-09"];
  expect(new Set(same.map((formula) => normal(formula, own))).size).toBe(1);
  expect(normal('=SUM(Other!B2)', own)).not.toBe(normal('=SUM(B2)', own));
  expect(normal('="a b"', own)).not.toBe(normal('="ab"', own));
});
