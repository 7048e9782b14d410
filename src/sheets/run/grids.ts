import type { RunSetup } from '../runsetup';
import { PRIMARY_STEMS } from './stems';

/** A grid of readings that a run asks for. */
export interface ReadingGrid {
  /** Its name on the sheet. */
  readonly name: string;
  readonly count: number;
  /** Black and ambient light may read 0. */
  readonly mayBeZero: boolean;
}

/** What of a set-up decides which readings there are. */
export type ReadingChoices = Pick<
  RunSetup,
  'colour' | 'black' | 'corners' | 'checkerboard' | 'ambient' | 'repeats'
>;

/** All readings of a set-up, grid by grid: ambient, nine points of each field and repeat, what stands beside them, the centre at the end. */
export function gridsOf({
  colour,
  black,
  corners,
  checkerboard,
  ambient,
  repeats,
}: ReadingChoices): ReadingGrid[] {
  const lit = (name: string, count: number): ReadingGrid => ({ name, count, mayBeZero: false });
  const dark = (name: string, count: number): ReadingGrid => ({ name, count, mayBeZero: true });
  const repeated = (stem: string, first = `${stem}Readings`) =>
    Array.from({ length: repeats }, (_, k) => lit(k === 0 ? first : `${stem}Repeat${k + 1}`, 9));
  return [
    ...(ambient === 'none' ? [] : [dark('AmbientReadings', ambient === 'once' ? 1 : 9)]),
    ...repeated('White'),
    ...(colour === 'full fields' ? PRIMARY_STEMS.flatMap((stem) => repeated(stem)) : []),
    ...(colour === 'tiled patterns'
      ? ['PatternA', 'PatternB', 'PatternC'].flatMap((name) => repeated(name, name))
      : []),
    ...(black ? [dark('BlackReadings', 9)] : []),
    ...(corners ? [lit('CornerReadings', 4)] : []),
    ...(checkerboard ? [dark('BoardReadings', 16)] : []),
    lit('LastReading', 1),
  ];
}

export function readingsOf(setup: ReadingChoices): number {
  return gridsOf(setup).reduce((sum, { count }) => sum + count, 0);
}
