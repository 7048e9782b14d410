import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { COVER_TITLE, PLAIN_COPY, plainCopy, plainCopyOf } from '../../src/audit/plain';
import { verify } from '../../src/audit/seal/verify';
import type { Book, BookSheet, CellValue } from '../../src/sheets/book';
import { certificatePlan } from '../../src/sheets/certificate';
import { addressesOf } from '../../src/sheets/filled';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { handOver } from '../../src/xlsx/handover';
import { addNote, freeze } from '../../src/xlsx/handover/sheet';
import { addStyles } from '../../src/xlsx/handover/styles';
import { editNames, growPrintArea, select } from '../../src/xlsx/handover/workbook';
import { readyExample } from '../audit/examples';
import { sealed } from '../audit/sealing';
import { smallest } from '../audit/sheets';
import { createPaneHost } from '../excel/host';
import { filled, randomRun } from '../sheets/randomrun';
import { isLong } from '../tools/amount';
import { readForeign } from '../tools/foreign';
import { convert } from '../tools/libreoffice';

const MOMENT = { when: '2026-11-25T09:30:00Z', who: '=A. Nobody (invented)', program: '0.1.0' };

/** A workbook as the embedded engine calculates it: two runs, their certificate, a comparison; and its file. */
let book: Book;
let bytes: Uint8Array;
let copy: Uint8Array;
beforeAll(async () => {
  const { host, test } = await createPaneHost();
  const runs = [randomRun(3), randomRun(4)];
  const built: { sheet: string; addresses: Record<string, string> }[] = [];
  for (const run of runs) {
    const { sheet } = await host.build(filled(run));
    built.push({ sheet, addresses: addressesOf(run.plan) });
  }
  await host.build(certificatePlan({ run: built[0]!, number: '1', issuedBy: 'x' }, 'paper'));
  await test.engine.calculation.settled();
  book = await test.workbench.toBook();
  bytes = await writeXlsx(book);
  copy = await plain(bytes);
}, 120_000);

async function plain(file: Uint8Array): Promise<Uint8Array> {
  const read = await readXlsx(file);
  const answer = plainCopy(read, MOMENT, []);
  if (!answer.ok) throw new Error(answer.why);
  return handOver(file, answer.copy);
}
const namesOf = ({ names, sheets }: Book, but: readonly string[] = []) =>
  [
    ...names,
    ...sheets.flatMap((sheet) =>
      sheet.names.map((each) => ({ ...each, name: `${sheet.name}!${each.name}` })),
    ),
  ]
    .map(({ name, refersTo, hidden = false }) => `${name} ${refersTo} ${hidden}`)
    .filter((name) => !but.some((each) => name.startsWith(each)))
    .sort();
const cellsOf = (sheets: readonly BookSheet[]) =>
  sheets.flatMap((sheet) =>
    Object.entries(sheet.cells).map(([at, cell]) => ({ where: `${sheet.name}!${at}`, ...cell })),
  );

describe('a plain copy', () => {
  it('has the values, plain formulas and names of the workbook, and no function of ours', async () => {
    const came = await readXlsx(copy);
    const original = await readXlsx(bytes);
    expect(came.sheets.map(({ name }) => name)).toEqual([
      COVER_TITLE,
      ...original.sheets.map(({ name }) => name),
    ]);
    const now = new Map(cellsOf(came.sheets).map((cell) => [cell.where, cell]));
    let [kept, frozen] = [0, 0];
    for (const { where, value, formula, style } of cellsOf(original.sheets)) {
      expect(now.get(where)!.value ?? '', where).toEqual(value ?? '');
      expect(now.get(where)!.style, where).toEqual(style);
      const isOurs = formula?.replace(/"[^"]*"/g, '').includes('LIGHT.') === true;
      expect(now.get(where)!.formula, where).toBe(isOurs ? undefined : formula);
      if (isOurs) frozen++;
      else if (formula !== undefined) kept++;
    }
    expect(frozen).toBeGreaterThan(30);
    expect(kept).toBeGreaterThan(100);
    expect(namesOf(came, [PLAIN_COPY])).toEqual(namesOf(original));
    expect(plainCopyOf(came)).toBe('2026-11-25 09:30:00 UTC');
    const text = Object.values(unzipSync(copy))
      .map((part) => strFromU8(part))
      .join('');
    expect(text).not.toMatch(/_xldudf_LIGHT/);
  });

  /* LibreOffice Calc opens it, calculates every formula anew and saves it. */
  // Its quantiles of Student's t are good to some 1e-9.
  it('recalculated by LibreOffice has no error and the same numbers to 1e-8', async () => {
    const [saved] = await convert([copy], 'xlsx');
    const came = await readXlsx(saved!);
    const original = await readXlsx(bytes);
    const now = new Map(cellsOf(came.sheets).map((cell) => [cell.where, cell]));
    const differing: string[] = [];
    let numbers = 0;
    for (const { where, value } of cellsOf(original.sheets)) {
      const here: CellValue = now.get(where)?.value ?? null;
      if (typeof value === 'number') numbers++;
      const isSame =
        typeof value === 'number' && typeof here === 'number'
          ? Math.abs(here - value) <= 1e-8 * Math.abs(value) + 1e-12
          : (here ?? '') === (value ?? '');
      if (!isSame) differing.push(`${where}: ${JSON.stringify(value)} became ${JSON.stringify(here)}`);
    }
    expect(differing).toEqual([]);
    expect(numbers).toBeGreaterThan(300);
    const errors = cellsOf(came.sheets).filter(({ value }) => typeof value === 'object' && value !== null);
    expect(errors).toEqual([]);
    expect(cellsOf(came.sheets).filter(({ formula }) => /LIGHT[._]|xldudf/.test(formula ?? ''))).toEqual([]);
    const kept = namesOf(came).map((name) => name.split(' ')[0]);
    for (const name of namesOf(original).map((each) => each.split(' ')[0])) expect(kept).toContain(name);
  });

  it('says on its cover and below each sheet what stands and what follows', async () => {
    const came = await readXlsx(copy);
    const [cover, ...others] = came.sheets;
    const words = Object.values(cover!.cells).map(({ value }) => String(value ?? ''));
    expect(
      words.some((text) => text.includes('Made on 2026-11-25 09:30:00 UTC by =A. Nobody (invented)')),
    ).toBe(true);
    expect(words.some((text) => text.includes('do not follow what is typed afterwards'))).toBe(true);
    expect(Object.values(cover!.cells).every(({ formula }) => formula === undefined)).toBe(true);
    expect(cover!.isProtected).toBe(true);
    expect(came.active).toBe(COVER_TITLE);
    for (const sheet of others) {
      const notes = Object.entries(sheet.cells).filter(([, { value }]) =>
        /^Plain copy of /.test(String(value)),
      );
      const original = book.sheets.find(({ name }) => name === sheet.name)!;
      const hasOurs = Object.values(original.cells).some(({ formula }) => formula?.includes('LIGHT.'));
      expect(notes.length, sheet.name).toBe(hasOurs ? 1 : 0);
      if (!hasOurs) continue;
      // It is printed too.
      const row = Number(/\d+/.exec(notes[0]![0])![0]);
      expect(Number(/\d+$/.exec(sheet.print!.area)![0])).toBe(row + 1);
    }
  });

  it('is opened by a second reader, ExcelJS', async () => {
    const foreign = await readForeign(copy);
    expect(foreign.sheets.map(({ name }) => name)).toEqual([
      COVER_TITLE,
      ...book.sheets.map(({ name }) => name),
    ]);
  });

  it('keeps what a Book does not know: charts, pictures, parts of other programs', async () => {
    const parts = unzipSync(bytes);
    parts['xl/media/image1.png'] = strToU8('picture');
    parts['customXml/item1.xml'] = strToU8('<other/>');
    parts['xl/calcChain.xml'] = strToU8('<calcChain/>');
    const types = strFromU8(parts['[Content_Types].xml']!);
    parts['[Content_Types].xml'] = strToU8(
      types.replace('</Types>', '<Override PartName="/xl/calcChain.xml" ContentType="x"/></Types>'),
    );
    const came = unzipSync(await plain(zipSync(parts)));
    expect(strFromU8(came['xl/media/image1.png']!)).toBe('picture');
    expect(strFromU8(came['customXml/item1.xml']!)).toBe('<other/>');
    // The order of calculation would name cells that have no formula any more: a damaged file to Excel.
    expect(came['xl/calcChain.xml']).toBeUndefined();
    expect(strFromU8(came['[Content_Types].xml']!)).not.toContain('calcChain');
  });

  it('keeps charts', async () => {
    const withChart = await writeXlsx({
      ...book,
      sheets: book.sheets.map((sheet, i) =>
        i === 1
          ? {
              ...sheet,
              charts: [
                {
                  title: 'Light',
                  over: 'N4:T18',
                  categories: 'B26:D26',
                  series: [{ name: 'x', values: 'B27:D27' }],
                },
              ],
            }
          : sheet,
      ),
    });
    const charts = (file: Uint8Array) =>
      Object.keys(unzipSync(file)).filter((path) => /charts\/chart/.test(path));
    expect(charts(withChart)).toHaveLength(1);
    expect(charts(await plain(withChart))).toEqual(charts(withChart));
  });
});

/*
 * Every kind of sheet the ready example has: need, offers, runs, comparison, acceptance, certificate, ageing. Its
 * functions are computed by us; LibreOffice computes every plain formula of the copy anew and must come to the same.
 */
// Each time workbench/saved has LibreOffice calculate a plain copy of the same workbook, as the workbench saves it.
it.runIf(isLong)(
  'of a whole workbook of linked sheets recalculates in LibreOffice to the same numbers, without an error',
  async () => {
    const file = await writeXlsx(readyExample());
    const original = await readXlsx(file);
    const [saved] = await convert([await plain(file)], 'xlsx');
    const came = await readXlsx(saved!);
    const now = new Map(cellsOf(came.sheets).map((cell) => [cell.where, cell]));
    const differing: string[] = [];
    // The one function that fills many cells: our own calculation has no array results, so its cell is an error here.
    const spilling = new Set(
      cellsOf(original.sheets).flatMap(({ where, formula, value }) =>
        typeof value === 'object' && value !== null && formula?.includes('LIGHT.') ? [where] : [],
      ),
    );
    expect(spilling.size).toBeLessThanOrEqual(1);
    for (const { where, value } of cellsOf(original.sheets)) {
      if (spilling.has(where)) continue;
      const here = now.get(where)?.value ?? null;
      const isSame =
        typeof value === 'number' && typeof here === 'number'
          ? Math.abs(here - value) <= 1e-9 * Math.abs(value) + 1e-12
          : (here ?? '') === (value ?? '');
      if (!isSame) differing.push(`${where}: ${JSON.stringify(value)} became ${JSON.stringify(here)}`);
    }
    expect(differing).toEqual([]);
    const cells = cellsOf(came.sheets);
    const errors = cells.filter(({ value }) => typeof value === 'object' && value !== null);
    expect(errors.filter(({ where }) => !spilling.has(where))).toEqual([]);
    expect(cells.filter(({ formula }) => /LIGHT[._]|xldudf/.test(formula ?? ''))).toEqual([]);
    const kept = new Set(namesOf(came).map((name) => name.split(' ')[0]));
    expect(namesOf(original).filter((name) => !kept.has(name.split(' ')[0]!))).toEqual([]);
  },
);

describe('no copy is made', () => {
  const answer = (changed: Book) => plainCopy(changed, MOMENT, []);
  it('of a workbook without a function of ours', async () => {
    const none = { ...book, sheets: [book.sheets.find(({ name }) => name.startsWith('Sheet'))!] };
    expect(answer(none)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/^No cell of this workbook calls/),
    });
    // Nor of a copy again.
    expect(answer(await readXlsx(copy))).toMatchObject({ ok: false });
  });

  it('while results are not calculated, and which is said', () => {
    const changed = {
      ...book,
      sheets: book.sheets.map((sheet) => ({
        ...sheet,
        cells: Object.fromEntries(
          Object.entries(sheet.cells).map(([at, cell]) => [
            at,
            cell.formula?.includes('LIGHT.OUTPUT') ? { ...cell, value: { error: '#NAME?' as const } } : cell,
          ]),
        ),
      })),
    };
    const refused = answer(changed);
    expect(refused).toMatchObject({
      ok: false,
      why: expect.stringMatching(/results are not calculated.*“Run Unit 3.*\(#NAME\?\)/),
      remedy: expect.stringMatching(/^Refresh the results/),
    });
  });

  it('of a strict Open XML workbook', async () => {
    const parts = unzipSync(bytes);
    parts['xl/workbook.xml'] = strToU8(
      strFromU8(parts['xl/workbook.xml']!).replace(
        '<workbook ',
        '<workbook xmlns:s="http://purl.oclc.org/ooxml/x" ',
      ),
    );
    await expect(plain(zipSync(parts))).rejects.toMatchObject({ trouble: 'format' });
  });
});

it('a sealed workbook’s copy bears no seal and says what the original’s was', async () => {
  const whole = await sealed(smallest());
  const file = await writeXlsx(whole);
  const read = await readXlsx(file);
  const { name } = read.sheets[0]!;
  const report = await verify(read, name, { subtle: crypto.subtle });
  const answer = plainCopy(read, MOMENT, [report]);
  if (!answer.ok) throw new Error(answer.why);
  const came = await readXlsx(await handOver(file, answer.copy));
  expect(namesOf(came).filter((each) => /LightSeal|LightBook/.test(each))).toEqual([]);
  const words = Object.values(came.sheets[0]!.cells).map(({ value }) => String(value ?? ''));
  expect(words.some((text) => text.includes(report.record!.hash) && text.includes('the seal held'))).toBe(
    true,
  );
  // Nothing of it reads as a broken or a deleted seal.
  expect(await verify(came, name, { subtle: crypto.subtle })).toMatchObject({ state: 'none', reasons: [] });
});

/* Spellings of other programs: prefixes, quotes, attributes in another order (ECMA-376-1, 18.3.1). */
describe('parts in other spellings', () => {
  it('lose the formula of a cell and keep its result', () => {
    const cells = new Set(['A1', 'B1', 'C1', 'D1']);
    expect(
      freeze(
        '<row r="1"><c r="A1" s="3" cm="1"><f t="array" ref="A1">_xldudf_X()</f><v>5</v></c><c r="E1"><f>1+1</f><v>2</v></c></row>',
        cells,
      ),
    ).toBe('<row r="1"><c r="A1" s="3"><v>5</v></c><c r="E1"><f>1+1</f><v>2</v></c></row>');
    expect(freeze('<x:c s="1" t="str" r="B1"><x:f>F()</x:f><x:v>a &amp; b</x:v></x:c>', cells)).toBe(
      '<x:c s="1" t="inlineStr" r="B1"><x:is><x:t xml:space="preserve">a &amp; b</x:t></x:is></x:c>',
    );
    expect(freeze('<c r="C1" t="str"><f t="shared" si="0"/><v></v></c>', cells)).toBe(
      '<c r="C1" t="inlineStr"><is><t xml:space="preserve"></t></is></c>',
    );
    expect(freeze('<c r=\'D1\' t="b"><f>F()</f><v>1</v></c><c r="F1"/>', cells)).toBe(
      '<c r=\'D1\' t="b"><v>1</v></c><c r="F1"/>',
    );
  });

  it('get the note below their last row', () => {
    expect(
      addNote('<x:sheetData><x:row r="1"/><x:row spans="1:2" r="7"></x:row></x:sheetData>', ['a<b', 'c']),
    ).toEqual({
      xml: '<x:sheetData><x:row r="1"/><x:row spans="1:2" r="7"></x:row><x:row r="9"><x:c r="A9" t="inlineStr"><x:is><x:t xml:space="preserve">a&lt;b</x:t></x:is></x:c></x:row><x:row r="10"><x:c r="A10" t="inlineStr"><x:is><x:t xml:space="preserve">c</x:t></x:is></x:c></x:row></x:sheetData>',
      lastRow: 10,
    });
  });

  it('get looks behind those they have', () => {
    const { xml, looks } = addStyles(
      '<styleSheet><fonts count="1" x:k="1"><font><sz val="11"/><name val="A"/></font></fonts><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf/><xf><alignment/></xf></cellXfs></styleSheet>',
    );
    expect(looks).toEqual({ title: 2, heading: 3, text: 4 });
    expect(xml).toContain('<fonts count="3" x:k="1">');
    expect(xml).toContain('<font><b/><sz val="16"/><name val="A"/></font>');
    expect(xml).toContain('<cellXfs count="5">');
    expect(xml).toContain('<cellStyleXfs count="1"><xf/></cellStyleXfs>');
  });

  it('keep names but those that do not go along', () => {
    const mark = { name: PLAIN_COPY, refersTo: '="x"' };
    const dropped = (name: string) => name === 'B';
    const own = `<definedName name="${PLAIN_COPY}" hidden="1">&quot;x&quot;</definedName>`;
    expect(
      editNames(
        '<workbook><sheets/><definedNames><definedName name="A">1</definedName><definedName hidden="1" name="B">2</definedName></definedNames></workbook>',
        dropped,
        mark,
      ),
    ).toBe(
      `<workbook><sheets/><definedNames><definedName name="A">1</definedName>${own}</definedNames></workbook>`,
    );
    expect(editNames('<workbook><sheets><sheet/></sheets><calcPr/></workbook>', dropped, mark)).toBe(
      `<workbook><sheets><sheet/></sheets><definedNames>${own}</definedNames><calcPr/></workbook>`,
    );
  });

  it('print as far down as the note, and only one sheet is in front', () => {
    const area = (last: number) =>
      `<definedName name="_xlnm.Print_Area" localSheetId="1">'Run 1'!$A$1:$L$${last}</definedName>`;
    expect(growPrintArea(area(79), new Map([[1, 83]]))).toBe(area(83));
    expect(growPrintArea(area(90), new Map([[1, 83]]))).toBe(area(90));
    expect(growPrintArea(area(79), new Map([[0, 83]]))).toBe(area(79));
    expect(select('<sheetView tabSelected="1" workbookViewId="0"/>', false)).toBe(
      '<sheetView workbookViewId="0"/>',
    );
  });
});
