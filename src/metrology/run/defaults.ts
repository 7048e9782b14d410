import type { FieldName, LightSource, MeterClass } from './input';

/** What is assumed where an input is unknown. Chosen to be on the large side; every use is told to the reader. */

/**
 * Total error by class, DIN 5032-7:1985-12 (superseded by the 2017 edition), as retyped in an instrument
 * manual and confirmed by a second page: L 3 %, A 5 %, B 10 %, C 20 %.
 */
export const CLASS_TOTAL: Readonly<Record<MeterClass, number>> = { L: 0.03, A: 0.05, B: 0.1, C: 0.2 };
export const WORST_CLASS: MeterClass = 'C';

/** k of a stated U that comes without it, as calibration certificates state it; only a normal distribution asks for it. */
export const COVERAGE_FACTOR = 2;

/** ± 10 digits, as hand-held meters often state (from memory). */
export const DIGITS = 10;
/** A step of 1 on the display. */
export const DIGIT = 1;

/**
 * A meter well inside class A (f1′ = 2.4 %, response V^1.05, calibrated on illuminant A) reads laser-like
 * primaries wrong by 6.0 % (red, 638 nm), 1.5 % (green) and 16.3 % (blue, 445 nm): computed, rounded up. White
 * mixes them and errs less; 2 % is common practice.
 */
export const SPECTRAL: Readonly<Record<FieldName, number>> = {
  white: 0.02,
  red: 0.07,
  green: 0.02,
  blue: 0.17,
  black: 0.02,
};

/** Index f1′ by class, DIN 5032-7:1985-12 (as retyped in an instrument manual); the widest where the class is unknown. */
export const CLASS_F1: Readonly<Record<MeterClass, number>> = { L: 0.015, A: 0.03, B: 0.06, C: 0.09 };

/**
 * Half-width of the mismatch of a field, in units of the meter's f1′: what meters read wrong whose response is a power
 * or a shift of V(λ), calibrated on illuminant A, on light of the kind's usual primaries; computed (the tests do it
 * again), rounded up. White is the sum of its primaries, so that their errors partly cancel. An unknown kind counts as
 * the worst.
 */
export const SPECTRAL_PER_F1: Readonly<
  Record<LightSource | 'unknown', Readonly<Record<'white' | 'red' | 'green' | 'blue', number>>>
> = {
  lamp: { white: 0.5, red: 1.3, green: 0.9, blue: 6 },
  'laser phosphor': { white: 0.5, red: 1.2, green: 0.8, blue: 8 },
  LED: { white: 0.9, red: 1.6, green: 1.6, blue: 6.5 },
  'RGB laser': { white: 1, red: 3.1, green: 1.6, blue: 8.5 },
  unknown: { white: 1, red: 3.1, green: 1.6, blue: 8.5 },
};

/** Step between ranges by class, index f11 of DIN 5032-7:1985-12; the widest where the class is unknown. */
export const CLASS_LINEARITY: Readonly<Record<MeterClass, number>> = { L: 0.001, A: 0.005, B: 0.01, C: 0.02 };

/**
 * Placing and tilt of the meter, each reading: a tilt of 5° loses 0.4 % (its cosine); light that falls by 30 % from the
 * centre to the edge of an image of 1.6 m changes by 0.4 % a centimetre (estimate).
 */
export const PLACING = 0.01;

/** Light the room sends back onto the image: 0.8 % to 1.6 % of it where walls are light (estimate). */
export const ROOM = 0.01;

/** A sensor in its housing stands 20 to 30 mm in front of the screen (estimate), known to 5 mm. */
export const SENSOR_HEIGHT = 0.025;
export const SENSOR_HEIGHT_HALF = 0.005;
/** The throw distance as a part of itself: where the lens's light comes from is known to some centimetres. */
export const THROW_HALF = 0.03;
/** An unknown throw distance counts as the image's width: short, so that the doubt is on the large side. */
export const THROW_OF_WIDTH = 1;

/** Index f2 of the directional (cosine) response by class, DIN 5032-7:1985-12; L as A; the widest where the class is unknown. */
export const CLASS_F2: Readonly<Record<MeterClass, number>> = { L: 0.015, A: 0.015, B: 0.03, C: 0.06 };
/**
 * Error at an angle ε, in f2 times its sine: an error that grows with it, f2*(ε) = a · sin ε, has the index
 * f2 = a · ∫ sin ε · sin 2ε dε from 0° to 85° = a · 2 ÷ 3 · sin³ 85° = 0.659 a (index of ISO/CIE 19476:2014, from memory).
 */
export const OBLIQUE_PER_F2 = 1.52;
/**
 * From the lens's axis to the nine points, in the mean: 2 ÷ 9 of the width across, and half of the height where the lens
 * is level with the image's edge, as most are (geometry).
 */
export const OBLIQUE_ACROSS = 2 / 9;
export const OBLIQUE_DOWN = 1 / 2;

/** Standard uncertainty of one reading's repeatability where nothing was read twice: 1 % of it (common practice). */
export const REPEATABILITY = 0.01;
/** That figure is a guess good to a quarter of itself: ν = 8 (GUM G.4.2, table in E.4). */
export const REPEATABILITY_RELIABILITY = 0.25;

/** 0.5 % of a length, but at least 10 mm: a tape and a blurred edge at both ends (common practice). */
export const LENGTH_FRACTION = 0.005;
export const LENGTH_LEAST = 0.01;
/** The side difference above which an image has to be squared first (common practice). */
export const SQUARE = 0.01;

/** Ambient not measured: 1 % of the mean white illuminance, the level from which it matters (common practice). */
export const AMBIENT_UNMEASURED = 0.01;
/** Ambient measured but without its uncertainty: a tenth of it (common practice). */
export const AMBIENT_FRACTION = 0.1;

/** Drift not observed: 2 %, the level from which a run is to be repeated (common practice). */
export const DRIFT = 0.02;

/** Screen gain, as a data sheet gives it: 10 % (common practice). */
export const GAIN = 0.1;
