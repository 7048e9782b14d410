import { strFromU8 } from 'fflate';
import type { FileRemark } from '../sheets/book';
import { links, openParts, type SheetPart, workbookParts } from './parts';
import { commentRemarks } from './remarks/comments';
import { drawnRemarks } from './remarks/drawn';
import { linkRemarks } from './remarks/links';
import { lookRemarks, readLooks, richTexts } from './remarks/looks';
import { ruleRemarks } from './remarks/rules';
import { elements } from './xml';

/** Parts that are looked at beside those a Book is read from. */
const LOOKED_AT = /\.(?:xml|rels|vml)$/;

/**
 * What a file holds beyond its Book that changes what a person sees: drawings, links, comments, further conditional formats,
 * looks, opened ranges, settings that change numbers.
 *
 * @throws XlsxError for what is no workbook
 */
export function remarksOf(bytes: Uint8Array): FileRemark[] {
  const parts = openParts(bytes, (path) => LOOKED_AT.test(path));
  const { xml, sheets, sharedStrings, styles } = workbookParts(parts);
  const looks = readLooks(styles);
  const rich = richTexts(sharedStrings);
  return [
    ...settings(xml),
    ...sheets.flatMap((sheet) => {
      if (sheet.xml === undefined || sheet.path === undefined) return [];
      const text = (path: string) => {
        const part = parts.get(path);
        return part && strFromU8(part);
      };
      const listed = links(parts, sheet.path);
      return [
        ...viewRemarks(sheet),
        ...protectionRemarks(sheet),
        ...ruleRemarks(sheet.name, sheet.xml, styles),
        ...lookRemarks(sheet.name, sheet.xml, looks, rich),
        ...drawnRemarks(sheet.name, sheet.xml, listed, text),
        ...linkRemarks(sheet.name, sheet.xml, listed),
        ...commentRemarks(sheet.name, listed, text),
      ];
    }),
  ];
}

const isOn = (value: string | undefined) => value === '1' || value === 'true';
const isOff = (value: string | undefined) => value === '0' || value === 'false';

/** What of a workbook changes numbers (ECMA-376-1, 18.2.2 and 18.2.28). */
function settings(workbook: string): FileRemark[] {
  const [calculation] = elements(workbook, 'calcPr');
  const [properties] = elements(workbook, 'workbookPr');
  const tell = (message: string, expected: string, found: string): FileRemark => ({
    sheet: '',
    message,
    expected,
    found,
    isGrave: true,
  });
  const mode = calculation?.attribute('calcMode');
  return [
    ...(isOff(calculation?.attribute('fullPrecision'))
      ? [
          tell(
            'The workbook computes with numbers as they are shown.',
            'all digits',
            'precision as displayed',
          ),
        ]
      : []),
    ...(isOn(calculation?.attribute('iterate'))
      ? [tell('The workbook lets formulas go round in circles.', 'no iteration', 'iteration')]
      : []),
    ...(mode !== undefined && mode !== 'auto'
      ? [tell('The workbook is not calculated by itself: results may be old.', 'automatic', mode)]
      : []),
    ...(isOn(properties?.attribute('date1904'))
      ? [tell('The workbook counts its days from 1904.', 'days from 1900', 'days from 1904')]
      : []),
  ];
}

/** Zeros left out, formulas in place of results, rows that are hidden unless they say otherwise; a picture behind all. */
function viewRemarks({ name, xml = '' }: SheetPart): FileRemark[] {
  const views = elements(xml, 'sheetView');
  const tell = (message: string, expected: string, found: string): FileRemark => ({
    sheet: name,
    message,
    expected,
    found,
    isGrave: true,
  });
  return [
    ...(views.some(({ attribute }) => isOff(attribute('showZeros')))
      ? [tell('Zeros are not shown.', 'zeros shown', 'zeros left out')]
      : []),
    ...(views.some(({ attribute }) => isOn(attribute('showFormulas')))
      ? [tell('Formulas are shown in place of their results.', 'results', 'formulas')]
      : []),
    ...(elements(xml, 'sheetFormatPr').some(({ attribute }) => isOn(attribute('zeroHeight')))
      ? [tell('Rows are hidden unless they say otherwise.', 'rows shown', 'rows hidden')]
      : []),
  ];
}

/** What a protection of ours leaves to a person (`protect.ts` of the pane, `write.ts` here). */
const LEFT: ReadonlySet<string> = new Set(['formatColumns', 'formatRows', 'autoFilter', 'sort']);
/** What a protection forbids unless its attribute is off (ECMA-376-1, 18.3.1.85). */
const FORBIDDEN = [
  'formatCells',
  'formatColumns',
  'formatRows',
  'insertColumns',
  'insertRows',
  'insertHyperlinks',
  'deleteColumns',
  'deleteRows',
  'sort',
  'autoFilter',
  'pivotTables',
];

/** What a range is opened with, if with anything (ECMA-376-1, 18.3.1.71). */
const KEYS = ['password', 'hashValue', 'securityDescriptor'];

function protectionRemarks({ name, xml = '' }: SheetPart): FileRemark[] {
  const [protection] = elements(xml, 'sheetProtection');
  const loose = FORBIDDEN.filter((what) => !LEFT.has(what) && isOff(protection?.attribute(what)));
  const ranges = elements(xml, 'protectedRange');
  return [
    ...(loose.length > 0
      ? [
          {
            sheet: name,
            message: 'The protection of the sheet allows more than it did when the sheet was built.',
            expected: 'columns and rows made to fit, lines filtered and sorted',
            found: loose.join(', '),
            isGrave: false,
          },
        ]
      : []),
    ...ranges.map(({ attribute }) => ({
      sheet: name,
      ...(attribute('sqref') ? { at: attribute('sqref')!.split(/\s+/)[0]! } : {}),
      message: `Cells of the protected sheet are opened to ${KEYS.some((key) => attribute(key) !== undefined) ? 'whoever has the word' : 'everybody'}, as “${attribute('name') ?? ''}”.`,
      expected: 'no opened range',
      found: attribute('sqref') ?? '',
      isGrave: true,
    })),
  ];
}
