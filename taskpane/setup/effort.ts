import { readingsOf } from '../../src/sheets/run/grids';
import { AMBIENTS, COLOUR_FIELDS } from '../../src/sheets/runsetup';
import { count } from '../parse/block';
import type { SetupTexts } from './field';

/** Seconds a reading takes by guided capture: an estimate, for a person who is used to it. */
const SECONDS = 10;

/** "38 readings, about 6 minutes.": what a run as set up takes. */
export function effortOf(texts: Pick<SetupTexts, EffortField>): string {
  const readings = readingsOfForm(texts);
  return `${count(readings, 'reading')}, about ${count(Math.max(1, Math.round((readings * SECONDS) / 60)), 'minute')}.`;
}

type EffortField = 'colour' | 'ambient' | 'black' | 'checkerboard' | 'corners' | 'repeats';

/** As the sheet asks for them. */
export function readingsOfForm({
  colour,
  ambient,
  black,
  checkerboard,
  corners,
  repeats,
}: Pick<SetupTexts, EffortField>) {
  return readingsOf({
    colour: COLOUR_FIELDS.find((each) => each === colour) ?? 'none',
    ambient: AMBIENTS.find((each) => each === ambient) ?? 'none',
    black: black === 'yes',
    checkerboard: checkerboard === 'yes',
    corners: corners === 'yes',
    repeats: Number(repeats),
  });
}
