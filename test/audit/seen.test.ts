import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { lostSeals } from '../../src/audit/seal/lost';
import { verify } from '../../src/audit/seal/verify';
import type { Book, BookSheet } from '../../src/sheets/book';
import { readXlsx, remarksOf, writeXlsx } from '../../src/xlsx';
import { sealed } from './sealing';
import { smallest } from './sheets';

/*
 * What changes what a person sees of a sealed sheet, made in the file as anybody can: by whom it is found, and what is
 * named. `outside` stands for what neither looks at, with the reason. The elements and attributes are those of
 * ECMA-376-1, chapter 18.
 */

type Parts = Record<string, string>;
interface Made {
  readonly what: string;
  readonly change: (parts: Parts) => void;
  /** What the seal names, as `group key`. */
  readonly seal?: RegExp;
  /** What the check of the file says. */
  readonly check?: RegExp;
  readonly refused?: RegExp;
  /** Why neither looks at it. */
  readonly outside?: string;
}

const SHEET = 'xl/worksheets/sheet1.xml';
const WORKBOOK = 'xl/workbook.xml';
const STYLES = 'xl/styles.xml';
let bytes: Uint8Array;
let book: Book;
let own: BookSheet;
/** The cell with the light output of white, its verdict, and a reading. */
let [result, verdict, reading] = ['', '', ''];

beforeAll(async () => {
  bytes = await writeXlsx(await sealed(smallest()));
  book = await readXlsx(bytes);
  own = book.sheets[0]!;
  const at = (name: string) =>
    /\$([A-Z]+)\$(\d+)/
      .exec(own.names.find((each) => each.name === name)!.refersTo)!
      .slice(1)
      .join('');
  [result, reading] = [at('WhiteLightOutput'), at('WhiteReadings')];
  verdict = Object.keys(own.cells).find((cell) => own.cells[cell]!.value === 'pass')!;
});

const put = (parts: Parts, path: string, from: string | RegExp, to: string) => {
  const before = parts[path]!;
  parts[path] = before.replace(from, () => to);
  if (parts[path] === before) throw new Error(`${path} has no ${from}`);
};
/** Puts an element in its place: behind the last of those that come before it. */
const after = (parts: Parts, element: string, behind: RegExp) => {
  const all = [...parts[SHEET]!.matchAll(behind)];
  const last = all.at(-1)!;
  const at = last.index + last[0].length;
  parts[SHEET] = parts[SHEET]!.slice(0, at) + element + parts[SHEET]!.slice(at);
};
const rowOf = (at: string) => /\d+/.exec(at)![0];
const cell = (at: string) => new RegExp(`<c r="${at}"[^>]*?(?:/>|>[\\s\\S]*?</c>)`);
/** A look of its own for one cell: that of another, with one thing changed. */
const restyle = (parts: Parts, at: string, change: (xf: string, parts: Parts) => string) => {
  const found = cell(at).exec(parts[SHEET]!)![0];
  const style = Number(/ s="(\d+)"/.exec(found)?.[1] ?? 0);
  const list = /<cellXfs[^>]*>([\s\S]*?)<\/cellXfs>/.exec(parts[STYLES]!)![1]!;
  const xfs = [...list.matchAll(/<xf\s[^>]*?\/>|<xf\s[\s\S]*?<\/xf>/g)].map(([xf]) => xf);
  put(parts, STYLES, '</cellXfs>', `${change(xfs[style]!, parts)}</cellXfs>`);
  put(parts, SHEET, found, found.replace(/ s="\d+"/, '').replace('<c ', `<c s="${xfs.length}" `));
};
/** Another font or fill in the list of its kind, and the number it has there. */
const added = (parts: Parts, list: 'fonts' | 'fills', item: string): number => {
  const all = new RegExp(`<${list}[^>]*>([\\s\\S]*?)</${list}>`).exec(parts[STYLES]!)![1]!;
  const one = list.slice(0, -1);
  const count = [...all.matchAll(new RegExp(`<${one}[\\s>]`, 'g'))].length;
  put(parts, STYLES, `</${list}>`, `${item}</${list}>`);
  return count;
};
const font = (inner: string) => (parts: Parts) =>
  restyle(parts, result, (xf) =>
    xf.replace(/fontId="\d+"/, `fontId="${added(parts, 'fonts', `<font>${inner}</font>`)}"`),
  );
const CALIBRI = '<name val="Calibri"/>';
const FORMATS =
  /<\/conditionalFormatting>|<mergeCells[\s\S]*?<\/mergeCells>|<sheetProtection[^>]*\/>|<\/sheetData>/g;
const formatting = (rule: string) => (parts: Parts) =>
  after(parts, `<conditionalFormatting sqref="${result}">${rule}</conditionalFormatting>`, FORMATS);
const dxf = (inner: string) => (parts: Parts) => {
  put(parts, STYLES, '</dxfs>', `<dxf>${inner}</dxf></dxfs>`);
};
const drawing = (inner: string) => (parts: Parts) => {
  const ns = 'http://schemas.openxmlformats.org';
  parts['xl/drawings/drawing9.xml'] =
    `<xdr:wsDr xmlns:xdr="${ns}/drawingml/2006/spreadsheetDrawing"><xdr:twoCellAnchor><xdr:from><xdr:col>1</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>4</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>3</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>9</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>${inner}<xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`;
  put(
    parts,
    'xl/worksheets/_rels/sheet1.xml.rels',
    '</Relationships>',
    `<Relationship Id="rId99" Type="${ns}/officeDocument/2006/relationships/drawing" Target="../drawings/drawing9.xml"/></Relationships>`,
  );
};
const calculation = (attributes: string) => (parts: Parts) => {
  put(parts, WORKBOOK, '<calcPr ', `<calcPr ${attributes} `);
};
const workbookName = (name: string, refersTo: string) => (parts: Parts) => {
  put(
    parts,
    WORKBOOK,
    '</definedNames>',
    `<definedName name="${name}">${refersTo}</definedName></definedNames>`,
  );
};
const value = (at: string, now: string) => (parts: Parts) => {
  const found = cell(at).exec(parts[SHEET]!)![0];
  put(parts, SHEET, found, found.replace(/<v>[^<]*<\/v>/, `<v>${now}</v>`));
};

const MADE: readonly Made[] = [
  { what: 'a result', change: (p) => value(result, '3999')(p), seal: /^result/ },
  { what: 'a verdict', change: (p) => value(verdict, 'fail')(p), seal: /^result/ },
  {
    what: 'a row hidden',
    change: (p) => put(p, SHEET, `<row r="${rowOf(result)}"`, `<row hidden="1" r="${rowOf(result)}"`),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  {
    what: 'a row of no height',
    change: (p) =>
      put(
        p,
        SHEET,
        new RegExp(`<row r="${rowOf(result)}"[^>]*>`),
        `<row r="${rowOf(result)}" ht="0" customHeight="1">`,
      ),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  {
    what: 'a column hidden',
    change: (p) => put(p, SHEET, /<col min="2"/, '<col hidden="1" min="2"'),
    seal: /^sheet column B$/,
    check: /Column B is hidden/,
  },
  {
    what: 'a column of no width',
    change: (p) => put(p, SHEET, /<col min="2" max="2" width="[^"]*"/, '<col min="2" max="2" width="0"'),
    seal: /^sheet column B$/,
    check: /Column B is hidden/,
  },
  {
    what: 'rows hidden unless they say otherwise',
    change: (p) => after(p, '<sheetFormatPr defaultRowHeight="15" zeroHeight="1"/>', /<\/sheetViews>/g),
    check: /Rows are hidden unless they say otherwise/,
  },
  {
    what: 'the tab’s name',
    change: (p) => {
      p[WORKBOOK] = p[WORKBOOK]!.replaceAll(own.name, 'Run approved');
      p[SHEET] = p[SHEET]!.replaceAll(own.name, 'Run approved');
    },
    seal: /^sheet tab$/,
  },
  {
    what: 'letters as white as the paper',
    change: font(`<sz val="9"/><color rgb="FFFFFFFF"/>${CALIBRI}`),
    seal: /^cell/,
    check: /cannot be read/,
  },
  {
    what: 'letters of 1 point',
    change: font(`<sz val="1"/>${CALIBRI}`),
    seal: /^cell/,
    check: /cannot be read/,
  },
  { what: 'another colour', change: font(`<sz val="9"/><color rgb="FF00AA00"/>${CALIBRI}`), seal: /^cell/ },
  {
    what: 'a font of signs',
    change: font('<sz val="9"/><color rgb="FF4A5560"/><b/><name val="Wingdings"/>'),
    check: /drawn in Wingdings/,
  },
  {
    what: 'struck out',
    change: font(`<b/><strike/><sz val="9"/><color rgb="FF4A5560"/>${CALIBRI}`),
    check: /drawn struck out/,
  },
  {
    what: 'a coloured fill',
    change: (p) =>
      restyle(p, result, (xf) =>
        xf.replace(
          /fillId="\d+"/,
          `fillId="${added(p, 'fills', '<fill><patternFill patternType="solid"><fgColor rgb="FF00FF00"/></patternFill></fill>')}"`,
        ),
      ),
    seal: /^cell/,
  },
  {
    what: 'a pattern behind it',
    change: (p) =>
      restyle(p, result, (xf) =>
        xf.replace(
          /fillId="\d+"/,
          `fillId="${added(p, 'fills', '<fill><patternFill patternType="darkGrid"/></fill>')}"`,
        ),
      ),
    check: /on a pattern/,
  },
  {
    what: 'pushed out of its cell',
    change: (p) =>
      restyle(p, result, (xf) =>
        xf.replace(/\s*(?:\/>|>[\s\S]*)$/, '><alignment horizontal="left" indent="200"/></xf>'),
      ),
    check: /pushed out of the cell/,
  },
  {
    what: 'a conditional format with a number format',
    change: (p) => {
      const count = [...p[STYLES]!.matchAll(/<dxf>/g)].length;
      dxf('<numFmt numFmtId="199" formatCode="&quot;3999&quot;"/>')(p);
      formatting(`<cfRule type="expression" dxfId="${count}" priority="99"><formula>TRUE</formula></cfRule>`)(
        p,
      );
    },
    check: /shows other figures than the cells hold/,
  },
  {
    what: 'a conditional format of another kind',
    change: formatting(
      '<cfRule type="dataBar" priority="99"><dataBar><cfvo type="min"/><cfvo type="max"/><color rgb="FF00FF00"/></dataBar></cfRule>',
    ),
    check: /not of the layout/,
  },
  {
    what: 'the alert of a check taken away',
    change: (p) => put(p, SHEET, /<conditionalFormatting[\s\S]*?<\/conditionalFormatting>/, ''),
    check: /conditional formats of \w+ are not those of the layout/,
  },
  {
    what: 'cells merged over a reading',
    change: (p) => {
      const [, column, row] = /([A-Z]+)(\d+)/.exec(reading)!;
      const range = `${column}${row}:${column}${Number(row) + 1}`;
      if (p[SHEET]!.includes('</mergeCells>'))
        put(p, SHEET, '</mergeCells>', `<mergeCell ref="${range}"/></mergeCells>`);
      else
        after(
          p,
          `<mergeCells count="1"><mergeCell ref="${range}"/></mergeCells>`,
          /<sheetProtection[^>]*\/>|<\/sheetData>/g,
        );
    },
    check: /are merged: only the first of them is seen/,
  },
  {
    what: 'a note of ours',
    change: (p) =>
      put(p, Object.keys(p).find((path) => /comments1\.xml$/.test(path))!, /<t [^>]*>/, '<t>Approved. '),
    check: /note of \w+ was altered/,
  },
  {
    what: 'a text box',
    change: drawing('<xdr:sp><xdr:txBody/></xdr:sp>'),
    check: /A text box or shape lies on the sheet/,
  },
  { what: 'a picture', change: drawing('<xdr:pic></xdr:pic>'), check: /A picture lies on the sheet/ },
  {
    what: 'an opened range',
    change: (p) =>
      after(
        p,
        `<protectedRanges><protectedRange sqref="${result}" name="All"/></protectedRanges>`,
        /<sheetProtection[^>]*\/>/g,
      ),
    check: /opened to whoever has the word/,
  },
  {
    what: 'a protection that allows more',
    change: (p) => put(p, SHEET, '<sheetProtection ', '<sheetProtection formatCells="0" deleteRows="0" '),
    check: /protection of the sheet allows more/,
  },
  {
    what: 'protection taken off',
    change: (p) => put(p, SHEET, /<sheetProtection[^>]*\/>/, ''),
    seal: /^sheet protection$/,
    check: /not protected/,
  },
  {
    what: 'precision as displayed',
    change: calculation('fullPrecision="0"'),
    check: /numbers as they are shown/,
  },
  { what: 'iteration', change: calculation('iterate="1"'), check: /round in circles/ },
  { what: 'manual calculation', change: calculation('calcMode="manual"'), check: /not calculated by itself/ },
  {
    what: 'days from 1904',
    change: (p) =>
      put(p, WORKBOOK, /<workbookPr[^>]*\/>|(?=<bookViews>)|(?=<sheets>)/, '<workbookPr date1904="1"/>'),
    check: /days from 1904/,
  },
  {
    what: 'zeros left out',
    change: (p) => put(p, SHEET, '<sheetView ', '<sheetView showZeros="0" '),
    check: /Zeros are not shown/,
  },
  {
    what: 'formulas shown',
    change: (p) => put(p, SHEET, '<sheetView ', '<sheetView showFormulas="1" '),
    check: /Formulas are shown/,
  },
  {
    what: 'a function that shadows one of a program',
    change: workbookName('AVERAGE', '_xlfn.LAMBDA(_xlpm.x,3999)'),
    seal: /^sheet name of the workbook AVERAGE$/,
    check: /has a name AVERAGE/,
  },
  {
    what: 'a name that shadows a function of ours',
    change: (p) => {
      const called = Object.values(own.cells).find(({ formula }) => /LIGHT\./.test(formula ?? ''))!.formula!;
      workbookName(/LIGHT\.[A-Z]+/.exec(called)![0], '3999')(p);
    },
    seal: /^sheet name of the workbook LIGHT\./,
    check: /has a name LIGHT\./,
  },
  {
    what: 'a name that moves with the cell',
    change: (p) => {
      const whole = /<definedName name="WhiteReadings"[^>]*>[^<]*/.exec(p[WORKBOOK]!)![0];
      put(p, WORKBOOK, whole, whole.replaceAll('$', ''));
    },
    seal: /^name WhiteReadings$/,
  },
  {
    what: 'what a person is told at a cell',
    change: (p) => put(p, SHEET, / prompt="/, ' prompt="Type 3999. '),
    seal: /^rule/,
    check: /./,
  },
  {
    what: 'an input rule that stops nothing',
    change: (p) => put(p, SHEET, ' errorStyle="stop"', ' errorStyle="warning"'),
    seal: /^rule/,
    check: /no longer stops/,
  },
  {
    what: 'who sealed',
    change: (p) => put(p, WORKBOOK, /A\.%20Nobody/g, 'B.%20Nobody'),
    seal: /^sheet made$/,
  },
  {
    what: 'when it was sealed',
    change: (p) => {
      p[WORKBOOK] = p[WORKBOOK]!.replaceAll('2026-11-25T09:30:00Z', '2026-11-20T09:30:00Z');
    },
    seal: /^sheet made$/,
  },
  {
    what: 'its history',
    change: (p) =>
      put(p, WORKBOOK, 'light-history|1|', 'light-history|1|reopened~2026-11-01T00:00:00Z~B~x~|'),
    seal: /^sheet history$/,
  },
  {
    what: 'a sheet of a foreign namespace',
    change: (p) => put(p, SHEET, '<sheetData>', '<zz:c xmlns:zz="urn:x" r="A1"/><sheetData>'),
    refused: /foreign namespace/,
  },
  {
    what: 'two links of one id',
    change: (p) => {
      const link = /<Relationship [^>]*Id="rId1"[^>]*\/>/.exec(p['xl/_rels/workbook.xml.rels']!)![0];
      put(p, 'xl/_rels/workbook.xml.rels', link, link + link);
    },
    refused: /two links of the id/,
  },
  {
    what: 'the mark of the sheet taken away',
    change: (p) => put(p, WORKBOOK, /<definedName [^>]*name="LightSheet"[\s\S]*?<\/definedName>/, ''),
    check: /no sheet bears it/,
  },
  {
    what: 'heads and feet of the print',
    change: (p) => {
      p[SHEET] = p[SHEET]!.replace(/<oddFooter>.*?<\/oddFooter>/, '<oddFooter>Approved</oddFooter>');
    },
    outside: 'it is on paper only, and says nothing of a figure',
  },
  {
    what: 'bold letters',
    change: font(`<sz val="9"/><color rgb="FF4A5560"/>${CALIBRI}`),
    outside: 'weight and slant hide nothing',
  },
];

describe('what is seen of a sealed sheet', () => {
  it('holds as it was made, and the check of the file finds nothing', async () => {
    expect(await verify(book, own.name, { subtle: crypto.subtle })).toMatchObject({ state: 'holds' });
    const { findings } = await check(book, { file: remarksOf(bytes) });
    expect(findings.filter(({ kind }) => kind === 'seen')).toEqual([]);
  });

  it.each(MADE.map((made) => [made.what, made] as const))('%s', async (_, made) => {
    const parts: Parts = Object.fromEntries(
      Object.entries(unzipSync(bytes)).map(([path, part]) => [path, strFromU8(part)]),
    );
    made.change(parts);
    const now = zipSync(
      Object.fromEntries(Object.entries(parts).map(([path, text]) => [path, strToU8(text)])),
      { level: 0 },
    );
    if (made.refused) {
      await expect(readXlsx(now)).rejects.toThrow(made.refused);
      return;
    }
    const read = await readXlsx(now);
    const report = await verify(read, read.sheets[0]!.name, { subtle: crypto.subtle });
    const named = report.differences.map(({ group, key }) => `${group} ${key}`);
    const found = (await check(read, { file: remarksOf(now) })).findings.map(({ message }) => message);
    const lost = lostSeals(read);
    if (made.seal) {
      expect(report.state).toBe('broken');
      expect(named).toContainEqual(expect.stringMatching(made.seal));
      expect(named.length, named.join()).toBeLessThanOrEqual(30);
    } else if (lost.length === 0) expect([report.state, named, report.reasons]).toEqual(['holds', [], []]);
    if (made.check) expect([...found, ...lost]).toContainEqual(expect.stringMatching(made.check));
    expect(made.seal ?? made.check ?? made.outside).toBeDefined();
  });
});
