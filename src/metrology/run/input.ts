import type { Distribution } from '../distribution';

/**
 * One run as plain numbers, the way a sheet can hand it over. Fractions are fractions (0.03 is 3 %), lengths
 * metres, illuminances lux unless said otherwise. Whatever is left out gets a stated, conservative default.
 */
export interface RunInput {
  readonly image: ImageInput;
  readonly meter: MeterInput;
  readonly white: FieldInput;
  readonly red?: FieldInput;
  readonly green?: FieldInput;
  readonly blue?: FieldInput;
  /** Full-black field, for the sequential contrast. */
  readonly black?: FieldInput;
  /** Checkerboard, for the contrast within one picture. */
  readonly board?: BoardInput;
  readonly ambient?: AmbientInput;
  readonly drift?: DriftInput;
  /** Screen gain, for the luminance. */
  readonly screen?: { readonly gain: number; readonly half?: number };
  readonly others?: readonly OtherInput[];
}

/** Fields of light a run can hold; the first four in the order they are read. */
export type FieldName = 'white' | 'red' | 'green' | 'blue' | 'black';
export const FIELD_NAMES: readonly FieldName[] = ['white', 'red', 'green', 'blue', 'black'];
export const PRIMARIES = ['red', 'green', 'blue'] as const;

/** What is on the wall. Half-widths cover the tape and finding the image's edge, both ends together. */
interface ImageInput {
  readonly width: number;
  readonly height: number;
  readonly widthHalf?: number;
  readonly heightHalf?: number;
  /** Fraction by which the area may be off because the image is not square. */
  readonly squareHalf?: number;
}

export interface MeterInput {
  /** Fraction of the reading, e.g. 0.03 for ± 3 %. */
  readonly ofReading?: number;
  /** `rectangular` for a data sheet's bound; `normal` for a calibration certificate's U, then with its k. */
  readonly distribution?: Distribution;
  readonly coverageFactor?: number;
  /** DIN 5032-7:1985 class, standing in for an unknown fraction of the reading. */
  readonly meterClass?: MeterClass;
  /** ± so many steps of the last digit. */
  readonly digits?: number;
  /** Step of the display's last digit, in numbers on the display. */
  readonly digit?: number;
  /** Steps that differ by range: they go before `digit`. */
  readonly digitByRange?: readonly { readonly range: number; readonly digit: number }[];
  /** Lux per unit of the display: 1 for lux, 10.763910… for footcandles. */
  readonly luxPerUnit?: number;
}
export type MeterClass = 'L' | 'A' | 'B' | 'C';

/** Readings of one full field (or of one colour sorted out of tiles). */
export interface FieldInput {
  /** One list a repeat, each with one number on the display per point, row by row; null where a point was not repeated. The first list is complete. */
  readonly repeats: readonly (readonly (number | null)[])[];
  /** Range factor: one for the field, or one a point. */
  readonly range?: number | readonly number[];
  /** Calibration factor × spectral correction for this colour. */
  readonly correction?: number;
  /** Fraction by which the spectral correction may be off. */
  readonly spectralHalf?: number;
}

/** Tile centres of a checkerboard, each read once, all in one range and with the correction for white. */
export interface BoardInput {
  /** Numbers on the display at the white tiles, and at the black ones. */
  readonly white: readonly number[];
  readonly black: readonly number[];
  readonly range?: number;
  readonly correction?: number;
  /** Fraction by which the spectral correction may be off in the black tiles; the black field's goes before it. */
  readonly blackSpectralHalf?: number;
}

/** Measured with the projector's light blocked, by the same meter. */
interface AmbientInput {
  /** Lux, one for the image or one a point. */
  readonly value: number | readonly number[];
  /** Lux, apart from the meter's fraction of the reading. */
  readonly half?: number;
}

/** Centre reading of white at the beginning and at the end, in any one unit. */
interface DriftInput {
  readonly first: number;
  readonly last: number;
}

/** A line of the user's own: a fraction of the light output of what it applies to. */
export interface OtherInput {
  readonly label: string;
  readonly half: number;
  readonly distribution: Distribution;
  readonly coverageFactor?: number;
  readonly dof?: number;
  /** `all` is one cause common to every light output of the run, `colours` to red, green and blue. */
  readonly appliesTo: 'all' | 'colours' | Exclude<FieldName, 'black'>;
}
