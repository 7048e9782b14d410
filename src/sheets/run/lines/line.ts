import { METER_STATEMENTS } from '../../../metrology/words';
import { lightOf } from '../lightof';
import type { BudgetStem } from '../stems';

/** One component of a budget on the sheet; formulas without "=". */
export interface Line {
  readonly label: string;
  readonly half: string;
  readonly unit: string;
  readonly kind: 'rectangular' | 'normal';
  /** Formulas of shape and divisor where they are a choice. */
  readonly shape?: string;
  readonly divisor?: string;
  readonly sensitivity: string;
  readonly dof: string;
}

/** Infinite degrees of freedom: spreadsheets know no infinity, so a number that no ν reaches, shown as ∞. */
export const INFINITE = '1E+99';
export const DOF_FORMAT = '[>=1000000000]"∞";General';
/** Of a scatter that is assumed: a guess good to a quarter of itself (GUM G.4.2). */
export const DOF_ASSUMED = '8';
/** Of a scatter that no repeats of the run have shown: as known from elsewhere, or assumed. */
export const DOF_KNOWN = 'RepeatNu';

export const rectangular = (label: string, half: string, unit: string, sensitivity: string): Line => ({
  label,
  half,
  unit,
  kind: 'rectangular',
  sensitivity,
  dof: INFINITE,
});

/** Degrees of freedom of the scatter of nine points, each read so often; black is read once. */
const dofOf = (stem: BudgetStem, repeats: number) =>
  stem === 'Black' || repeats === 1 ? DOF_KNOWN : String(9 * (repeats - 1));

/** What the percentage is was said of a typed one; what is assumed by class is a limit. */
const STATED = (limit: string, certificate: string, rarely: string) =>
  `IF(COUNT(MeterOfReading)=0,${limit},IF(MeterStatement="${METER_STATEMENTS[1]}",${certificate},IF(MeterStatement="${METER_STATEMENTS[2]}",${rarely},${limit})))`;
export const gain = (sensitivity: string): Line => ({
  ...rectangular('Meter, ± of reading', 'MeterOfReadingUsed', 'of reading', sensitivity),
  shape: STATED('"rectangular"', '"normal"', '"triangular"'),
  divisor: STATED('SQRT(3)', '2', 'SQRT(6)'),
});
export const placing = (sensitivity: string) =>
  rectangular('Placing of the meter', 'PlacingHalfUsed', 'of reading', sensitivity);
export const linearity = (stem: BudgetStem, sensitivity: string) =>
  rectangular(`Linearity, ${stem.toLowerCase()}`, 'LinearityHalfUsed', 'of reading', sensitivity);
/** Of every light output alike: where the sensor stands, what the room sends back. */
export const everywhere = (sensitivity: string) => [
  rectangular('Sensor in front of the screen', 'SensorHalf', 'of output', sensitivity),
  rectangular('Oblique light on the sensor', 'ObliqueHalf', 'of output', sensitivity),
  rectangular('Light the room sends back', 'RoomHalfUsed', 'of output', sensitivity),
];
/** White as the mixture it is; of a run without colours its own. */
export const mixture = (hasColour: boolean, sensitivity: string): Line => ({
  ...mismatch('White', sensitivity),
  ...(hasColour ? { half: 'WhiteMixture' } : {}),
});
export const digits = (sensitivity: string) =>
  rectangular('Meter, ± digits', 'MeterDigitsUsed*MeterDigit*LuxPerUnit', 'lx', sensitivity);
export const display = (sensitivity: string) =>
  rectangular('Display step', 'MeterDigit*LuxPerUnit/2', 'lx', sensitivity);
export const ambient = (sensitivity: string) =>
  rectangular('Ambient light', 'AmbientHalfUsed', 'lx', sensitivity);
export const drift = (sensitivity: string, of = '') =>
  rectangular(`Drift${of}`, 'DriftHalf', 'of output', sensitivity);
export const mismatch = (stem: BudgetStem, sensitivity: string) =>
  rectangular(`Spectral mismatch, ${stem.toLowerCase()}`, `${stem}MismatchUsed`, 'of reading', sensitivity);
export const scatter = (stem: BudgetStem, repeats: number, sensitivity: string): Line => ({
  label: `Repeatability, ${stem.toLowerCase()}`,
  half: `${stem}Scatter`,
  unit: 'lx',
  kind: 'normal',
  sensitivity,
  dof: dofOf(stem, repeats),
});

/** The larger of white and colour: as far as primaries make white up, their shares are of it. */
const LARGER = 'MAX(ColourLightOutputPlain,WhiteLightOutputPlain)';
/** Part of white that a primary makes up, and part that is added to all of them. */
export const madeOf = (stem: BudgetStem) => `AVERAGE(${stem}Net)*ImageArea/${LARGER}`;
export const ADDED = 'MAX(0,1-ColourLightOutputPlain/WhiteLightOutputPlain)';
/** Sum of the squares of a field's nine readings in lux, as if all of them were the projector's light. */
export const squares = (stem: BudgetStem) => `SUMPRODUCT((${stem}Net+AmbientLux*${lightOf(stem)})^2)`;
/** Mean reading of a field in lux, as if all of it were the projector's light. */
export const gross = (stem: BudgetStem) => `(AVERAGE(${stem}Net)+AmbientMean*${lightOf(stem)})`;
/** The black field is read with the correction for white. */
const correction = (stem: BudgetStem) => `${stem === 'Black' ? 'White' : stem}Correction`;
/** Root of the summed squares of a field's range factors × correction: nine displays round one by one. */
export const rounding = (stem: BudgetStem) => `(${correction(stem)}^2*SUMSQ(${stem}Range))`;
