import { DEFAULT_LEVEL } from '../../metrology/words';

/** A measurement as it stands on the ageing sheet. */
export interface Measurement {
  /** Hours of the light source. */
  readonly hours: number;
  /** Light output, lm. */
  readonly output: number;
  /** Its expanded uncertainty, lm; shown, not weighed. */
  readonly expanded?: number;
  /** ISO date. */
  readonly date?: string;
  /** Where it is from, such as the name of a run sheet. */
  readonly remark?: string;
}

/** One unit in one mode, measured over the hours of its light source. */
export interface AgeingSetup {
  readonly projector: string;
  readonly serial: string;
  readonly mode: string;
  /** Light output the room needs, lm. */
  readonly needed?: number;
  /** Light output when new as stated by someone, lm; otherwise the first measurement counts. */
  readonly stated?: number;
  readonly hoursPerYear: number;
  /** Level of confidence of the intervals. */
  readonly level: number;
  readonly points: readonly Measurement[];
}

/** Lines for measurements on a sheet. */
export const MOST_MEASUREMENTS = 24;

/** Sensible start: 1 500 hours a year, about two standard deviations. */
export function defaultAgeing(projector = ''): AgeingSetup {
  return { projector, serial: '', mode: '', hoursPerYear: 1500, level: DEFAULT_LEVEL, points: [] };
}
