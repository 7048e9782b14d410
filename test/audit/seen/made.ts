import {
  added,
  after,
  CALIBRI,
  calculation,
  commented,
  drawing,
  dxf,
  font,
  formatting,
  linked,
  type Made,
  put,
  restyle,
  rowOf,
  SHEET,
  STYLES,
  value,
  WORKBOOK,
  workbookName,
} from './parts';
import { own, reading, result, verdict } from './sealedsheet';

/** What is tried every time. */
export const MADE: readonly Made[] = [
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
    what: 'a note of ours taken away',
    change: (p) =>
      put(
        p,
        Object.keys(p).find((path) => /comments1\.xml$/.test(path))!,
        /<comment [\s\S]*?<\/comment>/,
        '',
      ),
    check: /note of \w+ is gone/,
  },
  {
    what: 'all notes of ours taken away',
    change: (p) => {
      const path = Object.keys(p).find((each) => /comments1\.xml$/.test(each))!;
      p[path] = p[path]!.replace(/<comment [\s\S]*<\/comment>/, '');
    },
    check: /has none of its notes/,
  },
  {
    what: 'a comment that people answer',
    change: (p) => commented(result, 'Really 3999.')(p),
    check: /has a comment that is not of the layout/,
  },
  {
    what: 'a link out of the workbook',
    change: linked('ref="A1" r:id="rId98" tooltip="Certified"', 'https://example.invalid/'),
    check: /A link that is not of the layout lies on A1/,
  },
  {
    what: 'a link within the workbook',
    change: (p) => linked(`ref="${result}" location="A1"`)(p),
    check: /A link that is not of the layout lies on/,
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
    check: /opened to everybody, as “All”/,
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
