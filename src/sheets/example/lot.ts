import { Bits } from '../../metrology/bits';
import { normal, signed } from '../../metrology/draws';
import { type DrawnLot, drawLot } from '../acceptance/setup';
import type { InventedUnit } from './light';
import { EXAMPLE_AQL, LEAST_PART, TAKEN } from './network';

const LOT_SIZE = 60;

/** What happened to the units of the delivery that are not like the others, by their place in the draw. */
const BOOSTED = 7;
const AGED = 14;

const SERIALS = Array.from({ length: LOT_SIZE }, (_, i) => `RR-${1001 + i}`);

/** The delivery with its recorded draw. */
export function exampleLot(): DrawnLot {
  const lot = drawLot({
    lot: 'Delivery 1, 60 units (invented)',
    serials: SERIALS,
    aql: EXAMPLE_AQL,
    seed: '3 1 6 2 4 (five dice, invented)',
    drawnBy: 'B. Witness (invented)',
    drawnOn: '2026-03-02',
    leastWhite: LEAST_PART * TAKEN.white!,
    leastColour: LEAST_PART * TAKEN.colour!,
    counting: 'value',
  });
  if (!lot.ok) throw new Error('The lot of the example is sound');
  return lot.value;
}

/**
 * Every unit of the delivery: most near their rated value, as makers rate them; one that was put together to look
 * bright in white only, and one that has run for years.
 */
export function exampleUnits(lot: DrawnLot): ReadonlyMap<string, InventedUnit> {
  const [boosted, aged] = [BOOSTED, AGED].map((place) => lot.draw.drawn[place - 1]!.serial);
  return new Map(
    SERIALS.map((serial, i) => {
      const bits = new Bits(7001 + i);
      const around = (middle: number, part: number) =>
        middle * (1 + part * Math.max(-2.5, Math.min(2.5, normal(bits))));
      const unit: InventedUnit = {
        serial,
        white: around(0.97 * TAKEN.white!, 0.025),
        colourPart: around(0.985, 0.012),
        fall: around(0.24, 0.12),
        tilt: [0.03 * signed(bits), 0.05 * signed(bits)],
        contrast: around(900, 0.08),
        board: around(190, 0.08),
        drift: -0.003 * Math.abs(signed(bits)),
        seed: 9001 + i,
      };
      if (serial === boosted) return [serial, { ...unit, white: 1.02 * TAKEN.white!, colourPart: 0.55 }];
      // Two thirds of the light left, less contrast, a brighter rim: an old source behind a dusty lens.
      if (serial === aged)
        return [serial, { ...unit, white: 0.67 * TAKEN.white!, contrast: 540, board: 130, fall: 0.33 }];
      return [serial, unit];
    }),
  );
}

/** The units measured in full, by what they are in the example. */
export interface Chosen {
  readonly sound: string;
  readonly tiled: string;
  readonly boosted: string;
  readonly aged: string;
}

export function chosenUnits({ draw }: DrawnLot): Chosen {
  const at = (place: number) => draw.drawn[place - 1]!.serial;
  return { sound: at(1), tiled: at(2), boosted: at(BOOSTED), aged: at(AGED) };
}
