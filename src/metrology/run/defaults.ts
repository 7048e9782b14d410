import type { FieldName, MeterClass } from './input';

/** What is assumed where an input is unknown. Chosen to be on the large side; every use is told to the reader. */

/**
 * Total error by class, DIN 5032-7:1985-12 (superseded by the 2017 edition), as retyped in an instrument
 * manual and confirmed by a second page: L 3 %, A 5 %, B 10 %, C 20 %.
 */
export const CLASS_TOTAL: Readonly<Record<MeterClass, number>> = { L: 0.03, A: 0.05, B: 0.1, C: 0.2 };
export const WORST_CLASS: MeterClass = 'C';

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
