import { notAboveZero, notAtLeastZero } from '../../metrology/check';
import { bad, good, invalid, type Outcome } from '../../photometry/outcome';
import { notAboveOne } from './input';

/**
 * Contrast on the screen that a light output (lm) reaches on an image (m²) in ambient light (lx):
 * (E + E_a) ÷ (E ÷ C₀ + E_a) with E = light output ÷ area. Without the projector's own contrast C₀ its black is
 * taken as no light at all.
 */
export function contrastReached(
  lightOutput: number,
  area: number,
  ambient: number,
  ownContrast?: number,
): Outcome<number> {
  const problems = [
    ...notAtLeastZero(lightOutput, 'light output'),
    ...notAboveZero(area, 'image area'),
    ...notAtLeastZero(ambient, 'ambient illuminance'),
    ...(ownContrast === undefined ? [] : notAboveOne(ownContrast, 'projector’s own contrast')),
  ];
  if (problems.length > 0) return bad(...problems);
  const white = lightOutput / area;
  const black = white / (ownContrast ?? Number.POSITIVE_INFINITY);
  if (black + ambient === 0) {
    return bad(
      invalid(
        'not-defined',
        'contrast',
        'Contrast is not defined without any light on black: give the ambient illuminance or the projector’s own contrast.',
      ),
    );
  }
  return good((white + ambient) / (black + ambient));
}
