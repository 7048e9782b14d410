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
  /**
   * What the meter's spectral mismatch follows from. Where it is there, each primary's follows from f1′ and the kind of
   * light source, and white is the sum of its primaries and of what is added to them; where it is not, every field has
   * a mismatch of its own.
   */
  readonly spectrum?: SpectrumInput;
  /**
   * Up to what a mean net black is not told from nothing, so that a contrast is a bound: one step of the display, or
   * its own doubt U (k = 2) where that is more.
   */
  readonly blackBound?: 'step' | 'U';
  /** Placing and tilt of the meter: a part of each reading, apart from the scatter of repeats; no such cause where it is left out. */
  readonly placing?: { readonly half?: number };
  /**
   * What repeats elsewhere have shown of one reading's scatter, as a part of it, and how many they were: it counts where
   * no point was read twice.
   */
  readonly repeatability?: { readonly part?: number; readonly readings?: number };
  /** Linearity and range step of the meter: a part of all readings of one field. */
  readonly linearity?: { readonly half?: number };
  /** Light of the image that the room sends back onto it: a part of every light output. */
  readonly room?: { readonly half?: number };
  /** Cosine error of the meter where the light falls obliquely, by its index f2; no such cause where it is left out. */
  readonly oblique?: { readonly f2?: number };
  /** How far the sensor stands in front of the screen; corrections for it are part of each field's. */
  readonly sensor?: SensorInput;
}

/** Kinds of light source whose primaries are alike to a meter. */
export type LightSource = 'lamp' | 'laser phosphor' | 'LED' | 'RGB laser';
interface SpectrumInput {
  /** General V(λ) mismatch index f1′ of the meter, as a fraction. */
  readonly f1?: number;
  readonly light?: LightSource;
}

/** Metres; the doubt of an unknown distance is a part of every light output. */
interface SensorInput {
  readonly throwDistance?: number;
  readonly height?: number;
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
  /** True where one length was measured and the other follows from the aspect: both are then wrong together. */
  readonly isOneLength?: boolean;
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
  /** Calibration factor × spectral correction for this colour × factor for the sensor's place. */
  readonly correction?: number;
  /**
   * What of the correction is for the projector's light alone: all but the calibration factor. The ambient light in a
   * reading is multiplied with it too, and is taken off as often; 1 where left out.
   */
  readonly light?: number;
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
  readonly light?: number;
  /** Fraction by which the spectral correction may be off in the black tiles; the black field's goes before it. */
  readonly blackSpectralHalf?: number;
}

/** Measured with the projector's light blocked, by the same meter. */
interface AmbientInput {
  /** Lux, one for the image or one a point. */
  readonly value: number | readonly number[];
  /** Lux, apart from the meter's fraction of the reading. */
  readonly half?: number;
  /** Its range factors, one or one a point: the meter's offset in a range is then common to ambient and field. */
  readonly range?: number | readonly number[];
  /** Calibration factor of its readings; no spectral correction. */
  readonly calibration?: number;
}

/** The centre in white at the beginning and at the end, without ambient light, in any one unit. */
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
