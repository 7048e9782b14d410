import { bad, good, invalid, type Outcome } from './outcome';

/** Chromaticities x, y of a signal standard's primaries and white. */
interface Colorimetry {
  readonly red: readonly [number, number];
  readonly green: readonly [number, number];
  readonly blue: readonly [number, number];
  readonly white: readonly [number, number];
}

const D65 = [0.3127, 0.329] as const;

/** Primaries and white points as the standards print them. */
const COLORIMETRY: Readonly<Record<string, Colorimetry>> = {
  // ITU-R BT.709-6, item 1.3; the same as IEC 61966-2-1 (sRGB).
  'BT.709': { red: [0.64, 0.33], green: [0.3, 0.6], blue: [0.15, 0.06], white: D65 },
  // ITU-R BT.2020-2, table 3.
  'BT.2020': { red: [0.708, 0.292], green: [0.17, 0.797], blue: [0.131, 0.046], white: D65 },
  // P3 primaries (SMPTE RP 431-2) with D65.
  'P3-D65': { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: D65 },
  // P3 primaries with the cinema white (SMPTE RP 431-2).
  'P3-DCI': { red: [0.68, 0.32], green: [0.265, 0.69], blue: [0.15, 0.06], white: [0.314, 0.351] },
  // SMPTE-C primaries (SMPTE RP 145) with D65.
  'SMPTE-C': { red: [0.63, 0.34], green: [0.31, 0.595], blue: [0.155, 0.07], white: D65 },
  // EBU primaries (EBU Tech 3213; from memory) with D65.
  EBU: { red: [0.64, 0.33], green: [0.29, 0.6], blue: [0.15, 0.06], white: D65 },
};

export const SIGNAL_STANDARDS: readonly string[] = Object.keys(COLORIMETRY);

/** Red, green and blue parts; as shares they sum to 1. */
export interface Shares {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
}

/**
 * Luminance shares of the primaries at a standard's white: the primaries' XYZ columns are scaled so that they
 * add up to white, and Y is read off (normalised-primary method, SMPTE RP 177; from memory).
 */
export function standardShares(standard: string): Outcome<Shares> {
  const colours = Object.hasOwn(COLORIMETRY, standard) ? COLORIMETRY[standard] : undefined;
  if (!colours) {
    return bad(
      invalid(
        'choice',
        'signal standard',
        `The signal standard must be one of ${SIGNAL_STANDARDS.join(', ')}; it is "${standard}".`,
      ),
    );
  }
  const column = ([x, y]: readonly [number, number]) => [x / y, 1, (1 - x - y) / y] as const;
  const [r, g, b, w] = [
    column(colours.red),
    column(colours.green),
    column(colours.blue),
    column(colours.white),
  ];
  // Cramer's rule: each primary's share of Y is the determinant with that column replaced by white, over the whole.
  const whole = determinant(r, g, b);
  return good({
    red: determinant(w, g, b) / whole,
    green: determinant(r, w, b) / whole,
    blue: determinant(r, g, w) / whole,
  });
}

type Column = readonly [number, number, number];
function determinant(a: Column, b: Column, c: Column): number {
  return (
    a[0] * (b[1] * c[2] - b[2] * c[1]) -
    b[0] * (a[1] * c[2] - a[2] * c[1]) +
    c[0] * (a[1] * b[2] - a[2] * b[1])
  );
}

/** Shares of red, green and blue light output in their sum. */
export function measuredShares(red: number, green: number, blue: number): Outcome<Shares> {
  const sum = red + green + blue;
  if (!(sum > 0) || red < 0 || green < 0 || blue < 0) {
    return bad(
      invalid(
        'not-defined',
        'colour balance',
        `Colour balance needs red, green and blue light output of at least 0 with a sum above 0 lm; they are ${red}, ${green} and ${blue}.`,
      ),
    );
  }
  return good({ red: red / sum, green: green / sum, blue: blue / sum });
}
