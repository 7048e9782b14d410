import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { lostSeals } from '../../src/audit/seal/lost';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import type { Book, BookSheet } from '../../src/sheets/book';
import { readXlsx, remarksOf, writeXlsx } from '../../src/xlsx';
import { amount } from '../tools/amount';
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
  /** Why the seal itself does not hold. */
  readonly damaged?: RegExp;
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
/** The plain formula beside the light output. */
let plain = '';

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
  plain = viewOf(own).places.get('whitelightoutputplain')!.address;
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

/* Further ones; every fourth is tried each time, all of them with LONG. */
const XF = (change: (xf: string) => string) => (p: Parts) => restyle(p, result, (xf) => change(xf));
const aligned = (attributes: string) =>
  XF((xf) => xf.replace(/\s*(?:\/>|>[\s\S]*)$/, `><alignment ${attributes}/></xf>`));
const formatted = (at: () => string, code: string) => (p: Parts) =>
  restyle(p, at(), (xf, parts) => {
    put(
      parts,
      STYLES,
      /<numFmts count="\d+">/,
      `<numFmts count="99"><numFmt numFmtId="990" formatCode="${code}"/>`,
    );
    return xf.replace(/numFmtId="\d+"/, 'numFmtId="990"');
  });
const locking = (at: () => string, locked: string) => (p: Parts) =>
  restyle(p, at(), (xf) =>
    xf
      .replace(/ applyProtection="[^"]*"/, '')
      .replace(/\s*(?:\/>|>[\s\S]*)$/, ` applyProtection="1"><protection locked="${locked}"/></xf>`),
  );
const inCell = (at: () => string, from: RegExp, to: string) => (p: Parts) => {
  const found = cell(at()).exec(p[SHEET]!)![0];
  const now = found.replace(from, () => to);
  if (now === found) throw new Error(`${found} has no ${from}`);
  put(p, SHEET, found, now);
};
const view = (attributes: string) => (p: Parts) => put(p, SHEET, '<sheetView ', `<sheetView ${attributes} `);
const named = (name: string, change: (whole: string) => string) => (p: Parts) => {
  const whole = new RegExp(`<definedName [^>]*name="${name}"[\\s\\S]*?</definedName>`).exec(p[WORKBOOK]!)![0];
  put(p, WORKBOOK, whole, change(whole));
};

const MORE: readonly Made[] = [
  {
    what: 'a reading typed anew',
    change: (p) => value(reading, '999')(p),
    seal: /^cell/,
    check: /does not hold what its formula gives/,
  },
  {
    what: 'a reading deleted',
    change: inCell(() => reading, /<v>[^<]*<\/v>/, ''),
    seal: /^cell/,
    check: /does not hold what its formula gives/,
  },
  {
    what: 'a result that is an error, and a verdict in its place',
    change: (p) => {
      inCell(
        () => result,
        /<c ([^>]*?)>([\s\S]*?)<v>[^<]*<\/v>/,
        `<c r="${result}" t="e"><f>1</f><v>#NAME?</v>`,
      )(p);
      value(verdict, 'fail')(p);
    },
    seal: /^result/,
    check: /does not hold what its formula gives/,
  },
  {
    what: 'a number format that says another number',
    change: formatted(() => result, '&quot;3999&quot;'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  {
    what: 'a number format that says another verdict',
    change: formatted(() => verdict, ';;;&quot;fail&quot;'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  {
    what: 'a number format that shows nothing',
    change: formatted(() => result, ';;;'),
    seal: /^cell/,
    check: /number format of \w+ was altered/,
  },
  {
    what: 'a formula’s value in its place',
    change: inCell(() => result, /<f[\s\S]*?<\/f>/, ''),
    seal: /^cell/,
    check: /A constant stands in/,
  },
  {
    what: 'a formula altered',
    change: inCell(() => plain, /<f>/, '<f>1*'),
    seal: /^cell/,
    check: /is not the one built/,
  },
  {
    what: 'a cell split by a space',
    change: inCell(() => plain, /<f>/, '<f>$A$1 $A:$A+'),
    seal: /^cell/,
    check: /is not the one built/,
  },
  {
    what: 'a lock taken off a formula',
    change: locking(() => result, '0'),
    seal: /^cell/,
    check: /is not locked/,
  },
  {
    what: 'a lock put on a reading',
    change: locking(() => reading, '1'),
    seal: /^cell/,
    check: /is for input and is locked/,
  },
  {
    what: 'the sheet hidden',
    change: (p) => put(p, WORKBOOK, /<sheet /, '<sheet state="hidden" '),
    seal: /^sheet state$/,
    check: /sheet is hidden/,
  },
  {
    what: 'the sheet hidden from the menu, too',
    change: (p) => put(p, WORKBOOK, /<sheet /, '<sheet state="veryHidden" '),
    seal: /^sheet state$/,
    check: /sheet is hidden/,
  },
  {
    what: 'a row of 1 point',
    change: (p) =>
      put(
        p,
        SHEET,
        new RegExp(`<row r="${rowOf(result)}"[^>]*>`),
        `<row r="${rowOf(result)}" ht="1" customHeight="1">`,
      ),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  {
    what: 'rows folded into a group',
    change: (p) =>
      put(p, SHEET, `<row r="${rowOf(result)}"`, `<row outlineLevel="1" hidden="1" r="${rowOf(result)}"`),
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
  },
  {
    what: 'a column folded into a group',
    change: (p) => put(p, SHEET, /<col min="2"/, '<col outlineLevel="1" hidden="1" min="2"'),
    seal: /^sheet column B$/,
    check: /Column B is hidden/,
  },
  {
    what: 'an input rule taken away',
    change: (p) => put(p, SHEET, /<dataValidation [\s\S]*?<\/dataValidation>/, ''),
    seal: /^rule/,
    check: /has lost its input rule/,
  },
  {
    what: 'what a refusal says',
    change: (p) => put(p, SHEET, / error="/, ' error="Type 3999. '),
    seal: /^rule/,
    check: /words of the input rule/,
  },
  {
    what: 'a name that points elsewhere',
    change: named('WhiteReadings', (w) => w.replace(/\$(\d+)(?=<|:)/, '$99')),
    seal: /^name WhiteReadings$/,
    check: /name WhiteReadings does not point/,
  },
  {
    what: 'a name deleted',
    change: named('WhiteReadings', () => ''),
    seal: /^name WhiteReadings$/,
    check: /name WhiteReadings is missing/,
  },
  {
    what: 'a name of another sheet’s figure',
    change: workbookName('WhiteReadings', '3999'),
    outside: 'a name of the sheet goes before one of the workbook',
  },
  {
    what: 'a conditional format with white letters',
    change: (p) => {
      const count = [...p[STYLES]!.matchAll(/<dxf>/g)].length;
      dxf('<font><color rgb="FFFFFFFF"/></font>')(p);
      formatting(`<cfRule type="expression" dxfId="${count}" priority="99"><formula>TRUE</formula></cfRule>`)(
        p,
      );
    },
    check: /conditional format is not of the layout/,
  },
  {
    what: 'icons beside figures',
    change: formatting(
      '<cfRule type="iconSet" priority="99"><iconSet iconSet="3TrafficLights1" showValue="0"><cfvo type="percent" val="0"/><cfvo type="percent" val="33"/><cfvo type="percent" val="67"/></iconSet></cfRule>',
    ),
    check: /conditional format is not of the layout/,
  },
  {
    what: 'a scale of colours',
    change: formatting(
      '<cfRule type="colorScale" priority="99"><colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFFFFFFF"/><color rgb="FFFFFFFF"/></colorScale></cfRule>',
    ),
    check: /conditional formats of \w+ are not those of the layout/,
  },
  {
    what: 'a conditional format in the list of extensions',
    change: (p) =>
      after(
        p,
        `<extLst><ext xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings><x14:conditionalFormatting xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"><x14:cfRule type="dataBar" id="{00000000-000E-0000-0000-000001000000}"><x14:dataBar><x14:cfvo type="autoMin"/><x14:cfvo type="autoMax"/></x14:dataBar></x14:cfRule><xm:sqref>${result}</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>`,
        /<pageSetup[^>]*\/>|<headerFooter[\s\S]*?<\/headerFooter>|<drawing [^>]*\/>|<legacyDrawing [^>]*\/>/g,
      ),
    check: /conditional format is not of the layout/,
  },
  {
    what: 'the threshold of a check',
    change: (p) =>
      put(
        p,
        SHEET,
        /(<cfRule [^>]*>[\s\S]*?<formula>)/,
        '<cfRule type="expression" priority="98"><formula>FALSE',
      ),
    check: /conditional formats of \w+ are not those of the layout/,
  },
  {
    what: 'a chart of a stranger',
    change: drawing('<xdr:graphicFrame macro=""/>'),
    check: /drawing lies on the sheet/,
  },
  { what: 'letters turned upside', change: aligned('textRotation="90"'), check: /drawn turned/ },
  { what: 'letters below one another', change: aligned('textRotation="255"'), check: /drawn turned/ },
  {
    what: 'a figure repeated over its cell',
    change: aligned('horizontal="fill"'),
    check: /repeated until the cell is full/,
  },
  { what: 'letters shrunk to fit', change: aligned('shrinkToFit="1"'), check: /drawn shrunk to fit/ },
  {
    what: 'a figure centred over its neighbours',
    change: aligned('horizontal="centerContinuous"'),
    outside: 'the figure stands elsewhere and is still read',
  },
  {
    what: 'read from right to left',
    change: view('rightToLeft="1"'),
    outside: 'the sheet is mirrored as a whole, and each figure stays beside its label',
  },
  {
    what: 'seen at a tenth',
    change: view('zoomScale="10"'),
    outside: 'the person who looks chooses how large',
  },
  {
    what: 'without heads of rows and columns',
    change: view('showRowColHeaders="0"'),
    outside: 'they are no part of what the sheet says',
  },
  {
    what: 'the colour of the tab',
    change: (p) =>
      put(
        p,
        SHEET,
        /<sheetPr[^>]*?\/>|<sheetPr[\s\S]*?<\/sheetPr>|(?=<dimension|<sheetViews)/,
        '<sheetPr><tabColor rgb="FF00FF00"/></sheetPr>',
      ),
    outside: 'it says nothing of a figure',
  },
  {
    what: 'a word of a text in white',
    change: (p) =>
      put(
        p,
        SHEET,
        cell('A1'),
        '<c r="A1" t="inlineStr"><is><r><t xml:space="preserve">Not </t></r><r><rPr><color rgb="FFFFFFFF"/></rPr><t>approved</t></r></is></c>',
      ),
    seal: /^cell A1$/,
    check: /fixed text in A1 was altered/,
  },
  {
    what: 'views of one’s own that hide rows',
    change: (p) =>
      after(
        p,
        '<customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000001}" hiddenRows="1"/></customSheetViews>',
        /<sheetProtection[^>]*\/>/g,
      ),
    outside: 'nothing is hidden until somebody chooses the view, and then the rows are found',
  },
  {
    what: 'other colours by their numbers',
    change: (p) =>
      put(
        p,
        STYLES,
        '</styleSheet>',
        '<colors><indexedColors><rgbColor rgb="00FFFFFF"/></indexedColors></colors></styleSheet>',
      ),
    outside: 'cells of ours name their colours, not numbers of them',
  },
  {
    what: 'the program that sealed',
    change: (p) => put(p, WORKBOOK, /light-seal\|2\|[^"]*/, 'light-seal|2|x'),
    damaged: /seal itself is damaged/,
  },
  { what: 'the seal taken away', change: named('LightSeal', () => ''), damaged: /seal itself is damaged/ },
  {
    what: 'the register of seals taken away',
    change: named('LightSealRegister', () => ''),
    damaged: /register does not know this seal/,
  },
  {
    what: 'the mark of the workbook altered',
    change: named('LightBook', (w) => w.replace(/light-book\|1\|\w/, 'light-book|1|zz')),
    damaged: /sealed in another workbook/,
  },
  {
    what: 'the sheet made a log',
    change: named('LightSheet', (w) => w.replace(/run;\d+/, 'log;1')),
    damaged: /seal belongs to another sheet/,
  },
  {
    what: 'a foreign row',
    change: (p) =>
      put(
        p,
        SHEET,
        '</sheetData>',
        '<zz:row xmlns:zz="urn:x" r="999"><c r="A999"><v>3999</v></c></zz:row></sheetData>',
      ),
    refused: /foreign namespace/,
  },
  {
    what: 'a choice between contents',
    change: (p) =>
      put(
        p,
        SHEET,
        '</sheetData>',
        '<mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"><mc:Choice Requires="x"><row r="999"/></mc:Choice></mc:AlternateContent></sheetData>',
      ),
    refused: /where none belongs/,
  },
  {
    what: 'a prefix of another namespace',
    change: (p) => put(p, WORKBOOK, /xmlns:r="[^"]*"/, 'xmlns:r="urn:other"'),
    refused: /foreign namespace/,
  },
  {
    what: 'a cell that stands twice',
    change: (p) => {
      const own = cell(result).exec(p[SHEET]!)![0];
      put(p, SHEET, own, `${own}<c r="${result}"><v>3999</v></c>`);
    },
    refused: /is there twice/,
  },
  {
    what: 'a row that stands twice',
    change: (p) =>
      put(
        p,
        SHEET,
        '</sheetData>',
        `<row r="${rowOf(result)}"><c r="${result}"><v>3999</v></c></row></sheetData>`,
      ),
    refused: /is there twice/,
  },
  {
    what: 'a second list of rows',
    change: (p) =>
      put(
        p,
        SHEET,
        '</sheetData>',
        `</sheetData><sheetData><row r="1"><c r="A1"><v>3999</v></c></row></sheetData>`,
      ),
    refused: /twice in worksheet/,
  },
  {
    what: 'two sheets of one name',
    change: (p) =>
      put(
        p,
        WORKBOOK,
        /<sheet [^>]*\/>/,
        /<sheet [^>]*\/>/.exec(p[WORKBOOK]!)![0] + /<sheet [^>]*\/>/.exec(p[WORKBOOK]!)![0],
      ),
    refused: /two of its sheets are called/,
  },
  {
    what: 'a comment within a figure',
    change: inCell(() => result, /<v>/, '<v><!-- -->'),
    refused: /remark inside <v>/,
  },
  {
    what: 'a cell in small letters',
    change: (p) => put(p, SHEET, `r="${result}"`, `r="${result.toLowerCase()}"`),
    outside: 'every program takes it for the same cell',
  },
  {
    what: 'a cell without a place',
    change: (p) => put(p, SHEET, ` r="${result}"`, ''),
    outside: 'its place follows from the cell before it (ECMA-376-1, 18.3.1.4), here as in other programs',
  },
  {
    what: 'a formula over a whole sheet',
    change: inCell(() => plain, /<f>/, '<f t="array" ref="A1:XFD1048576">'),
    refused: /./,
  },
  {
    what: 'a table of what would be',
    change: inCell(() => plain, /<f>[\s\S]*?<\/f>/, '<f t="dataTable" ref="B1" dt2D="0" dtr="0" r1="B1"/>'),
    seal: /^(?:cell|result)/,
    check: /./,
  },
  {
    what: 'a figure that is a picture in its cell',
    change: inCell(() => result, /<c /, '<c vm="1" '),
    check: /a picture or a card is shown/,
  },
  {
    what: 'a value of a workbook elsewhere',
    change: inCell(() => plain, /<f>[\s\S]*?<\/f>/, '<f>[1]Run!$A$1</f>'),
    seal: /^cell/,
    check: /is not the one built/,
  },
  {
    what: 'an entity of its own',
    change: (p) => {
      p[SHEET] = p[SHEET]!.replace(/<worksheet/, '<!DOCTYPE worksheet [<!ENTITY x "3999">]><worksheet');
    },
    refused: /document type of its own/,
  },
];

describe('what is seen of a sealed sheet', () => {
  it('holds as it was made, and the check of the file finds nothing', async () => {
    expect(await verify(book, own.name, { subtle: crypto.subtle })).toMatchObject({ state: 'holds' });
    const { findings } = await check(book, { file: remarksOf(bytes) });
    expect(findings.filter(({ kind }) => kind === 'seen')).toEqual([]);
  });

  const tried = [...MADE, ...MORE.filter((_, i) => i % amount(4, 1) === 0)];
  it.each(tried.map((made) => [made.what, made] as const))('%s', async (_, made) => {
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
    } else if (made.damaged) {
      expect(['broken', 'unreadable']).toContain(report.state);
      expect(report.reasons.join(' ')).toMatch(made.damaged);
    } else if (lost.length === 0) expect([report.state, named, report.reasons]).toEqual(['holds', [], []]);
    if (made.check) expect([...found, ...lost]).toContainEqual(expect.stringMatching(made.check));
    expect(made.seal ?? made.check ?? made.damaged ?? made.outside).toBeDefined();
  });
});
