import { bad, good, invalid, type Outcome } from './outcome';
import { mean } from './reading';

/**
 * Light output in lumens: the mean of nine net illuminances (lx) times the image area (m²).
 * F = E_avg × A (ISO 11315-1:1997, as its publisher's overview gives it; the same method for data projectors
 * in ISO/IEC 21118, as retold by an industry body). A convention, not the integral over the image.
 */
export function lightOutput(nine: readonly number[], area: number): Outcome<number> {
  if (!(area > 0 && Number.isFinite(area))) {
    return bad(
      invalid('out-of-bounds', 'image area', `The image area must be greater than 0 m²; it is ${area}.`),
    );
  }
  return good(mean(nine) * area);
}

/**
 * Light output by a smooth surface through the nine points, lumens: an estimate of the integral over the image, for
 * figures of other origin. The surface of second degree across and down weighs the points 3 : 2 : 3 each way (Maclaurin's
 * three-point rule), so corners 9, edges 6, centre 4 of 64. Beyond the outer points it is drawn on.
 */
export function fittedOutput(nine: readonly number[], area: number): Outcome<number> {
  const one = lightOutput(nine, area);
  if (!one.ok) return one;
  return good((nine.reduce((sum, lux, i) => sum + lux * FITTED[i]!, 0) / 64) * area);
}
const FITTED = [9, 6, 9, 6, 4, 6, 9, 6, 9] as const;

/**
 * Colour light output in lumens: red + green + blue, each measured as light output
 * (colour-signal white: IDMS 1.03 section 5.4 and NISTIR 6657; the formula from memory).
 */
export function colourLightOutput(red: number, green: number, blue: number): number {
  return red + green + blue;
}

/**
 * Colour to white ratio. About 1: the primaries add up to white. Clearly below 1: light is added to white
 * only, and colour pictures are darker than the white figure promises (NISTIR 6657, abstract).
 */
export function colourToWhite(colour: number, white: number): Outcome<number> {
  if (!(white > 0)) {
    return bad(
      invalid(
        'out-of-bounds',
        'white light output',
        `White light output must be greater than 0 lm; it is ${white}.`,
      ),
    );
  }
  if (!(colour >= 0)) {
    return bad(
      invalid(
        'negative',
        'colour light output',
        `Colour light output must not be negative; it is ${colour} lm.`,
      ),
    );
  }
  return good(colour / white);
}
