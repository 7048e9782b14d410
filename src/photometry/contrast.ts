import { bad, good, invalid, type Outcome } from './outcome';
import { mean } from './reading';

/** A contrast ratio, or only a lower bound where black is too dark for the meter. */
export interface Contrast {
  readonly ratio: number;
  readonly isLowerBound: boolean;
}

/** Black and one display step are often the same number but for rounding, which must not decide: 1e-9 of margin. */
const MARGIN = 1 + 1e-9;

/**
 * Ratio of a white to a black mean illuminance (lx). Black at or below one step of the display
 * (`resolution`, lx) cannot be told from nothing: the answer is then "at least white ÷ resolution",
 * rounded down to a whole number. Black no larger than its own doubt (`doubt`, U in lx) cannot either: the answer is
 * then "at least white ÷ (black + U)".
 */
export function contrast(white: number, black: number, resolution: number, doubt = 0): Outcome<Contrast> {
  const floor = Math.max(resolution, doubt);
  if (!(white > 0)) {
    return bad(
      invalid('not-defined', 'white', `Contrast is not defined: the mean white illuminance is ${white} lx.`),
    );
  }
  if (black < -floor * MARGIN) {
    return bad(
      invalid(
        'ambient-exceeds',
        'black',
        `Ambient exceeds the black readings by ${-black} lx, more than ${floor > resolution ? 'its own doubt' : 'one step of the display'}: measure ambient and black again.`,
      ),
    );
  }
  if (black > floor * MARGIN) return good({ ratio: white / black, isLowerBound: false });
  const bound = Math.max(resolution, doubt > 0 ? Math.max(0, black) + doubt : 0);
  if (bound > 0) return good({ ratio: Math.floor((white / bound) * MARGIN), isLowerBound: true });
  return bad(
    invalid(
      'not-defined',
      'black',
      'The mean black illuminance is 0 lx: give the step of the display (resolution) to get a lower bound.',
    ),
  );
}

/** Full-white ÷ full-black: mean of nine ÷ mean of nine (ISO/IEC 21118, as retold; from memory). */
export function sequentialContrast(
  white: readonly number[],
  black: readonly number[],
  resolution: number,
  doubt = 0,
): Outcome<Contrast> {
  return contrast(mean(white), mean(black), resolution, doubt);
}

/** Readings of a 4 × 4 checkerboard, row by row, sorted into its 8 white and its 8 black tiles. */
export function sortBoard(
  sixteen: readonly number[],
  topLeft: 'white' | 'black',
): { readonly white: number[]; readonly black: number[] } {
  const isWhite = (i: number) => ((Math.floor(i / 4) + i) % 2 === 0) === (topLeft === 'white');
  return {
    white: sixteen.filter((_, i) => isWhite(i)),
    black: sixteen.filter((_, i) => !isWhite(i)),
  };
}

/**
 * Checkerboard contrast: mean of the 8 white ÷ mean of the 8 black tile centres of a 4 × 4 board, row by row
 * (IEC 61947-1, from memory; ANSI/INFOCOMM 3M-2011 for the 16 zones).
 */
export function checkerboardContrast(
  sixteen: readonly number[],
  topLeft: 'white' | 'black',
  resolution: number,
  doubt = 0,
): Outcome<Contrast> {
  const tiles = sortBoard(sixteen, topLeft);
  const [white, black] = [mean(tiles.white), mean(tiles.black)];
  if (black > white) {
    return bad(
      invalid(
        'choice',
        'checkerboard',
        `The tiles called white are darker than those called black (${white.toPrecision(4)} and ${black.toPrecision(4)} lx): is the top left tile really ${topLeft}?`,
      ),
    );
  }
  return contrast(white, black, resolution, doubt);
}
