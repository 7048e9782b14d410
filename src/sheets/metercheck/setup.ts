import type { IlluminanceUnit } from '../../photometry/units';

/** Readings of one light in one place, without touching the meter and with putting it back. */
export const CHECK_REPEATS = 10;
/** Rounds of each comparison. */
export const CHECK_ROUNDS = 5;

/** A meter held against itself. Lengths may be filled in on the sheet. */
export interface MeterCheckSetup {
  readonly place: string;
  readonly measuredBy: string;
  /** ISO date; empty if not stated. */
  readonly date: string;
  /** Lamp or projector that shone. */
  readonly light: string;
  readonly meter: {
    readonly name: string;
    readonly unit: IlluminanceUnit;
    /** Step of the display's last digit at range factor 1. */
    readonly digit: number;
    /** Range factor the readings start with, and the next higher one. */
    readonly range: number;
    readonly nextRange: number;
  };
  /** From the lamp's surface to the sensor's, metres. */
  readonly nearDistance?: number;
  readonly farDistance?: number;
  /** By how much each distance may be off, millimetres. */
  readonly distanceHalf?: number;
  /** Diameters of the luminous area and of the sensor's, millimetres. */
  readonly sourceDiameter?: number;
  readonly sensorDiameter?: number;
}

/** An empty check: of a lamp of which nothing is known yet. */
export function defaultMeterCheck(): MeterCheckSetup {
  return {
    place: '',
    measuredBy: '',
    date: '',
    light: '',
    meter: { name: '', unit: 'lx', digit: 1, range: 1, nextRange: 10 },
  };
}
