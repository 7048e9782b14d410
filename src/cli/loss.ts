import { listZip } from '../xlsx/zip';

/** Bounds of a table of contents that is only looked at; the reader has refused larger files before. */
const LIMITS = { file: 16_000_000, unpacked: 0, parts: 2000 };

const KINDS: readonly (readonly [RegExp, string])[] = [
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

/** What of a file is not taken over when it is read and written anew, in words; empty if nothing is lost. */
export function lossOf(bytes: Uint8Array): string[] {
  const paths = listZip(bytes, LIMITS);
  return KINDS.filter(([pattern]) => paths.some((path) => pattern.test(path))).map(([, words]) => words);
}
