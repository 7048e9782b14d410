import { bad, good, invalid, type Outcome } from '../../photometry/outcome';
import { drawSample } from '../../procurement/lot/draw';
import { serialText } from '../../procurement/lot/serials';
import { SPOT_UNITS } from './setup';

/**
 * The turn of each unit, from 1, in the order of the list. With a seed it is drawn, by the same rule by which lots
 * are sampled, so that anybody can repeat it: who decides the order as he goes tends to favour a unit.
 */
export function spotOrder(units: readonly string[], seed?: string): Outcome<readonly number[]> {
  const { min, max } = SPOT_UNITS;
  if (units.length < min || units.length > max) {
    return bad(
      invalid(
        'out-of-bounds',
        'units',
        `A spot check takes ${min} to ${max} units; there ${units.length === 1 ? 'is' : 'are'} ${units.length}.`,
      ),
    );
  }
  // Also without a draw: a name that is missing or stands twice is found in the same way.
  const draw = drawSample(units, units.length, seed ?? 'as listed');
  if (!draw.ok) return draw;
  if (seed === undefined) return good(units.map((_, i) => i + 1));
  const turns = draw.value.drawn.map(({ serial }) => serial);
  return good(units.map((unit) => turns.indexOf(serialText(unit)) + 1));
}
