import {
  after,
  aligned,
  cell,
  drawing,
  dxf,
  formatted,
  formatting,
  inCell,
  locking,
  type Made,
  named,
  put,
  rowOf,
  SHEET,
  STYLES,
  value,
  view,
  WORKBOOK,
  workbookName,
} from './parts';
import { plain, reading, result, verdict } from './sealedsheet';

/** Further ones; every fourth is tried each time, all of them with LONG. */
export const MORE: readonly Made[] = [
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
    what: 'a row hidden as if by a filter',
    change: (p) => {
      put(p, SHEET, `<row r="${rowOf(result)}"`, `<row hidden="1" r="${rowOf(result)}"`);
      after(p, '<autoFilter ref="A1:Z200"/>', /<sheetProtection[^>]*\/>/g);
    },
    seal: /^sheet row \d+$/,
    check: /Row \d+ is hidden/,
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
