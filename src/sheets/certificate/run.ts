import type { LinkedSheet } from '../link';

/** A run sheet as a certificate sees it: where its names stand. */
export type CertifiedRun = LinkedSheet;

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
