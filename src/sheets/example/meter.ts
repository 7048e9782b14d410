import type { MeterSetup } from '../runsetup';
import type { LitField } from './light';

/** An invented lux meter of four digits that ends at 1999: display steps of 1, range factors 0.1, 1 and 10. */
export const EXAMPLE_METER: MeterSetup = {
  name: 'Meter 3 of the network (invented)',
  unit: 'lx',
  range: 1,
  digit: 1,
  calibratedOn: '2025-09-15',
  calibration: 1.012,
  corrections: { white: 1, red: 1.024, green: 0.992, blue: 1.051 },
};

const COUNTS = 1999;
const RANGES = [0.1, 1, 10];

/** The smallest range factor that shows all of these illuminances: one range for a grid, as it ought to be read. */
export function rangeFor(lux: readonly number[]): number {
  const largest = Math.max(...lux);
  const range = RANGES.find((factor) => largest / factor <= COUNTS);
  if (range === undefined) throw new Error(`The meter ends below ${largest} lx`);
  return range;
}

/**
 * What the meter makes of the light at a point, lx: of the projector's too much or too little by what its readings are
 * corrected with, of the room's what it is.
 */
export function seenBy(
  { corrections }: MeterSetup,
  field: LitField,
  place: number,
  own: number,
  room: number,
) {
  return own / (corrections[field] * place) + room;
}

/** The number on the display for what the meter makes of the light. */
export function display(lux: number, range: number, calibration: number): number {
  return Math.max(0, Math.round(lux / calibration / range));
}
