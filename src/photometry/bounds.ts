/*
 * What can be typed for a quantity, both ends included: one set of bounds for forms, sheets and files. They are wide
 * enough for whatever is measured, and narrow enough to stop the slip that each of them names. A function has
 * none but those a per cent typed as a number would break.
 */

export interface Bounds {
  readonly min: number;
  readonly max: number;
}

/** Stands for "more than 0" where a rule of a spreadsheet knows closed bounds only. */
export const TINY = 0.000001;

/** Screens that scatter light have gains of some tenths to about ten; 100 is a per cent typed as a number. */
export const GAIN: Bounds = { min: 0.05, max: 20 };

/**
 * Least part of a rated value, or of a reference unit's, as a part of 1. Less than 1 % is a per cent sign too many;
 * 80 is one too few. More than the whole may be asked for, more than twice of it is another rated value.
 */
export const LEAST_PART: Bounds = { min: 0.01, max: 2 };

/**
 * Calibration factors and spectral corrections differ from 1 by some per cent, for narrow primaries by some tens. The
 * bounds keep the 10.76 lx to a footcandle out: that is the unit of the display, and would count twice.
 */
export const FACTOR: Bounds = { min: 0.1, max: 10 };

/** By how much a display is multiplied; meters have ranges from hundredths to thousands. */
export const RANGE_FACTOR: Bounds = { min: TINY, max: 1_000_000 };

/** Step of a display's last digit. Its lowest range reads up to some thousand steps. */
export const DISPLAY_STEP: Bounds = { min: TINY, max: 1000 };

/**
 * One projector's image lies between a hand's breadth and the largest halls and facades, m: outside it, somebody
 * mistook the unit. 100 in and 200 cm typed as metres are beyond it.
 */
export const IMAGE_METRES: Bounds = { min: 0.1, max: 60 };

/** Any light output, lm: as typed for a unit, or as a need. */
export const LUMENS: Bounds = { min: TINY, max: 1_000_000 };

/** Rated light output, lm. Below 10 lm thousands of lumens were meant. */
export const RATED_LUMENS: Bounds = { min: 10, max: LUMENS.max };
