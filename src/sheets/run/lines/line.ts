import type { BudgetStem } from '../stems';

/** One component of a budget on the sheet; formulas without "=". */
export interface Line {
  readonly label: string;
  readonly half: string;
  readonly unit: string;
  readonly kind: 'rectangular' | 'normal';
  readonly sensitivity: string;
  readonly dof: string;
}

/** Infinite degrees of freedom: spreadsheets know no infinity, so a number that no ν reaches, shown as ∞. */
export const INFINITE = '1E+99';
export const DOF_FORMAT = '[>=1000000000]"∞";General';
/** Of a scatter that is assumed: a guess good to a quarter of itself (GUM G.4.2). */
export const DOF_ASSUMED = '8';

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
  stem === 'Black' || repeats === 1 ? DOF_ASSUMED : String(9 * (repeats - 1));

export const gain = (sensitivity: string) =>
  rectangular('Meter, ± of reading', 'MeterOfReadingUsed', 'of reading', sensitivity);
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

/** Mean illuminance of a field with ambient still in it, lux. */
export const gross = (stem: BudgetStem) => `(AVERAGE(${stem}Net)+AmbientMean)`;
/** The black field is read with the correction for white. */
const correction = (stem: BudgetStem) => `${stem === 'Black' ? 'White' : stem}Correction`;
/** Root of the summed squares of a field's range factors × correction: nine displays round one by one. */
export const rounding = (stem: BudgetStem) => `(${correction(stem)}^2*SUMSQ(${stem}Range))`;
