import { chain, good, type Outcome } from '../../photometry/outcome';
import type { NeedInput } from './input';
import { need } from './need';

/**
 * White light output to ask for (lm) if the room were lit or the image sized otherwise: one row an ambient
 * illuminance (lx), one column an image area (m²). A cell that cannot be met carries its own reason.
 */
export function whatIf(
  room: NeedInput,
  ambients: readonly number[],
  areas: readonly number[],
): Outcome<number>[][] {
  return ambients.map((ambient) =>
    areas.map((area) => chain(need({ ...room, ambient, area }), ({ white }) => good(white))),
  );
}
