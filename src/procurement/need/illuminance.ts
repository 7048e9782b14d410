import { bad, good, invalid, type Outcome } from '../../photometry/outcome';

/**
 * Illuminance (lx) that the projector must add to reach a contrast in ambient light:
 * E ≥ (C − 1)·E_a ÷ (1 − C ÷ C₀). From C = (E + E_a) ÷ (E ÷ C₀ + E_a): white and black of the projector each
 * with the ambient light on top; the screen's gain cancels where it treats both alike. No solution for C ≥ C₀:
 * ambient light only lowers a projector's own contrast. In the dark any light reaches C < C₀: 0 lx.
 */
export function illuminanceForContrast(
  contrast: number,
  ambient: number,
  ownContrast = Number.POSITIVE_INFINITY,
): Outcome<number> {
  if (contrast >= ownContrast) {
    return bad(
      invalid(
        'not-defined',
        'wanted contrast',
        `A contrast of ${contrast} cannot be reached, however bright the projector: its own contrast in the dark is ${ownContrast}, and ambient light only lowers it.`,
      ),
    );
  }
  return good(((contrast - 1) * ambient) / (1 - contrast / ownContrast));
}

/** Illuminance (lx) for a luminance (cd/m²) of screen white: E = π·L ÷ G (CIE e-ILV 17-24-063 and 17-24-077). */
export function illuminanceForLuminance(luminance: number, gain: number): number {
  return (Math.PI * luminance) / gain;
}
