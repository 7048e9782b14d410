import { Bits } from '../../metrology/bits';
import { normal } from '../../metrology/draws';
import type { Point } from '../../photometry/points';
import { NINE_POINTS } from '../../photometry/points';

export type LitField = 'white' | 'red' | 'green' | 'blue';

/** An invented unit on its test image. */
export interface InventedUnit {
  readonly serial: string;
  /** White light output, lm: mean of nine points × area. */
  readonly white: number;
  /** Colour light output as a part of white; well below 1 where light is added to white alone. */
  readonly colourPart: number;
  /** How much darker a far corner is than the centre, as a part. */
  readonly fall: number;
  /** Slope of the light across and down the image, from one edge to the other. */
  readonly tilt: readonly [number, number];
  /** Full white over full black in the dark, and white over black tiles of one picture. */
  readonly contrast: number;
  readonly board: number;
  /** Part by which the light changes from the first to the last reading. */
  readonly drift: number;
  /** Of all that is random about this unit's readings. */
  readonly seed: number;
}

/** How red, green and blue share the colour light output; near the weights of BT.709, as real units are. */
const SHARES: Readonly<Record<Exclude<LitField, 'white'>, number>> = {
  red: 0.224,
  green: 0.694,
  blue: 0.082,
};
/** Blue falls off a little more, red a little less. */
const FALL: Readonly<Record<LitField, number>> = { white: 1, red: 0.95, green: 1, blue: 1.12 };

/** Relative illuminance over the image: falls with the square of the distance from the centre, and leans. */
function shape({ fall, tilt: [across, down] }: InventedUnit, field: LitField, { u, v }: Point): number {
  const [x, y] = [2 * u - 1, 2 * v - 1];
  return (1 - (fall * FALL[field] * (x * x + y * y)) / 2) * (1 + (across * x + down * y) / 2);
}

/** Illuminance from the unit alone at a point, lx, on an image of so many square metres. */
export function illuminance(unit: InventedUnit, field: LitField, area: number, point: Point): number {
  const output = field === 'white' ? unit.white : unit.white * unit.colourPart * SHARES[field];
  const mean = NINE_POINTS.reduce((sum, each) => sum + shape(unit, field, each), 0) / NINE_POINTS.length;
  return (output / area) * (shape(unit, field, point) / mean);
}

/** Random parts around 1 for one unit: the hand that holds the meter, the light that flickers. */
export class Scatter {
  private readonly bits: Bits;
  constructor(seed: number) {
    this.bits = new Bits(seed);
  }
  /** 1 give or take a part, normally spread and cut at three times it. */
  around1(part: number): number {
    return 1 + part * Math.max(-3, Math.min(3, normal(this.bits)));
  }
}
