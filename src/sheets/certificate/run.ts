import { absolute, addressOf, quoteSheet, rectOf } from '../address';

/** A run sheet as a certificate sees it: where its names stand. */
export interface CertifiedRun {
  readonly sheet: string;
  /** Addresses of the sheet's names, without `$` and sheet name. */
  readonly addresses: Readonly<Record<string, string>>;
}

/** A link to a cell behind a name of the run sheet; undefined where the run has no such name. */
export function linkTo(
  { sheet, addresses }: CertifiedRun,
  name: string,
  row = 0,
  column = 0,
): string | undefined {
  const address = addresses[name];
  if (!address) return undefined;
  const rect = rectOf(address);
  const at = addressOf({ row: rect.row + row, column: rect.column + column, rows: 1, columns: 1 });
  return `${quoteSheet(sheet)}!${absolute(at)}`;
}

/** What the run was never set up to measure, in words. */
export function notMeasured({ addresses }: CertifiedRun): string[] {
  const wanted: readonly (readonly [name: string, words: string])[] = [
    ['ColourLightOutput', 'colour light output'],
    ['AmbientReadings', 'ambient light (taken as 0 lx)'],
    ['SequentialContrast', 'contrast of full white to full black'],
    ['BoardContrast', 'contrast within one picture'],
    ['CornerReadings', 'the corners of the image'],
  ];
  const missing = wanted.filter(([name]) => !addresses[name]).map(([, words]) => words);
  return [...missing, 'chromaticity', 'noise', 'electric power', 'light output after ageing'];
}
