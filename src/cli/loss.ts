import { strFromU8 } from 'fflate';
import { openParts } from '../xlsx/parts';
import { listZip } from '../xlsx/zip';

/** Bounds of a table of contents that is only looked at; the reader has refused larger files before. */
const LIMITS = { file: 16_000_000, unpacked: 0, parts: 2000 };

/** Parts that are left out. */
const PARTS: readonly (readonly [RegExp, string])[] = [
  [/\/charts?(heets|Ex)?\//i, 'charts'],
  [/\/media\//i, 'pictures'],
  [/\/drawings\/drawing\d+\.xml$/i, 'drawings'],
  [/\/tables\//i, 'tables'],
  [/\/pivot/i, 'pivot tables'],
  [/\/slicer|\/timeline/i, 'slicers'],
  [/\/externalLinks\//i, 'links to other workbooks'],
  [/\/threadedComments\//i, 'comments'],
  [/\/customXml\//i, 'data of other programs'],
];

const WORKSHEET = /\/worksheets\/[^/]+\.xml$/i;
const WORKBOOK = /\/workbook\.xml$/i;
/** What is left out of parts that are read (ECMA-376-1, 18.3.1). */
const INSIDE: readonly (readonly [RegExp, RegExp, string])[] = [
  [WORKSHEET, /<(?:\w+:)?hyperlink\s/, 'links on cells'],
  [WORKSHEET, /<(?:\w+:)?autoFilter[\s/>]/, 'filters'],
  [WORKSHEET, /<(?:\w+:)?f\s[^<>]*\bt\s*=\s*["']dataTable["']/, 'data tables'],
  [WORKSHEET, /<(?:\w+:)?sparklineGroup[\s>]/, 'sparklines'],
  [WORKSHEET, /<(?:\w+:)?(?:row|col)\s[^<>]*\bhidden\s*=\s*["'](?:1|true)["']/, 'hidden rows or columns'],
  [WORKSHEET, /<(?:\w+:)?sheetProtection\s[^<>]*\b(?:hashValue|password)\s*=/, 'passwords of sheets'],
  [
    WORKBOOK,
    /<(?:\w+:)?workbookProtection\s[^<>]*\block(?:Structure|Windows)\s*=\s*["'](?:1|true)["']/,
    'a protected structure',
  ],
];

/** What of a file is not taken over when it is read and written anew, in words; empty if nothing is lost. */
export function lossOf(bytes: Uint8Array): string[] {
  const paths = listZip(bytes, LIMITS);
  const read = openParts(bytes, (path) => WORKSHEET.test(path) || WORKBOOK.test(path));
  const texts = [...read].map(([path, part]) => ({ path, text: strFromU8(part) }));
  return [
    ...PARTS.filter(([where]) => paths.some((path) => where.test(path))).map(([, words]) => words),
    ...INSIDE.filter(([where, what]) =>
      texts.some(({ path, text }) => where.test(path) && what.test(text)),
    ).map(([, , words]) => words),
  ];
}
