import { count } from '../parse/block';
import type { Texts } from './field';

/** Seconds a reading takes by guided capture; about what a person needs who is used to it. */
const SECONDS = 10;

/** "38 readings, about 6 minutes.": what a run as set up takes. */
export function effortOf(texts: Pick<Texts, EffortField>): string {
  const readings = readingsOf(texts);
  return `${count(readings, 'reading')}, about ${count(Math.max(1, Math.round((readings * SECONDS) / 60)), 'minute')}.`;
}

type EffortField = 'colour' | 'ambient' | 'black' | 'checkerboard' | 'corners' | 'repeats';

/** As the sheet asks for them: nine points of each field and repeat, what stands beside them, white centre at the end. */
export function readingsOf({
  colour,
  ambient,
  black,
  checkerboard,
  corners,
  repeats,
}: Pick<Texts, EffortField>): number {
  const fields = 9 * (colour === 'none' ? 1 : 4) * Number(repeats);
  const beside = ambient === 'none' ? 0 : ambient === 'once' ? 1 : 9;
  const is = (text: string, readings: number) => (text === 'yes' ? readings : 0);
  return fields + beside + is(black, 9) + is(checkerboard, 16) + is(corners, 4) + 1;
}
