import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { BUDGET_RESULT, type BudgetId, budgetIds } from './budgetid';
import { putResults } from './resultsblock';
import { type BudgetStem, PRIMARY_STEMS } from './uncertainty';
import { uncertaintyResults } from './verdict';

/** One component of a budget on the sheet; formulas without "=". */
interface Line {
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

const rectangular = (label: string, half: string, unit: string, sensitivity: string): Line => ({
  label,
  half,
  unit,
  kind: 'rectangular',
  sensitivity,
  dof: INFINITE,
});

/** Mean illuminance of a field with ambient still in it, lux. */
const gross = (stem: BudgetStem) => `(AVERAGE(${stem}Net)+AmbientMean)`;
const DIGITS = 'MeterDigitsUsed*MeterDigit*LuxPerUnit';
const STEP = 'MeterDigit*LuxPerUnit/2';
/** Root of the summed squares of a field's range factors × correction: nine displays round one by one. */
const rounding = (stem: BudgetStem) => `(${stem}Correction^2*SUMSQ(${stem}Range))`;

/**
 * Sensitivities are the first derivatives of
 *   Φ = mean(gain·(mismatch·gross + offsets) − gain·ambient) · width · height · square · drift · other,
 * and for the ratio those of Φ_colour ÷ Φ_white, so that what is common to both cancels on the sheet too
 * (GUM 5.1.2 and F.1.2). "0-" and not a leading minus: one engine takes a minus before a name for part of it.
 */
function lines(id: BudgetId, setup: RunSetup): Line[] {
  const W = 'WhiteLightOutputPlain';
  const C = 'ColourLightOutputPlain';
  const R = 'ColourToWhitePlain';
  const A = 'ImageArea';
  const dof = String(setup.repeats > 1 ? 9 * (setup.repeats - 1) : 8);
  const y = { White: W, Colour: C, Ratio: R }[id];
  const primaries = PRIMARY_STEMS.map(rounding).join('+');
  const scatter = (stem: BudgetStem, sensitivity: string): Line => ({
    label: `Repeatability, ${stem.toLowerCase()}`,
    half: `${stem}Scatter`,
    unit: 'lx',
    kind: 'normal',
    sensitivity,
    dof,
  });
  // The mean of nine points, each read `repeats` times.
  const ofMean = `${A}/3/SQRT(${setup.repeats})`;
  const mismatch = (stem: BudgetStem, sensitivity: string) =>
    rectangular(`Spectral mismatch, ${stem.toLowerCase()}`, `${stem}MismatchUsed`, 'of reading', sensitivity);
  const whole = (value: string) => [
    rectangular('Image width', 'WidthHalfUsed/1000', 'm', value === '0' ? '0' : `${value}/ImageWidth`),
    rectangular('Image height', 'HeightHalfUsed/1000', 'm', value === '0' ? '0' : `${value}/ImageHeight`),
    rectangular('Image not square', 'SquareHalfUsed', 'of area', value),
  ];
  const gain = (value: string) =>
    rectangular('Meter, ± of reading', 'MeterOfReadingUsed', 'of reading', value);
  const digits = (value: string) => rectangular('Meter, ± digits', DIGITS, 'lx', value);
  const display = (value: string) => rectangular('Display step', STEP, 'lx', value);
  const ambient = (value: string) => rectangular('Ambient light', 'AmbientHalfUsed', 'lx', value);
  const other = (value: string) => rectangular('Another cause', 'OtherHalfUsed', 'of output', value);
  if (id === 'White') {
    return [
      gain(y),
      digits(`${A}*SQRT(SUMSQ(DigitsWhite))`),
      display(`${A}*SQRT(${rounding('White')})/9`),
      scatter('White', ofMean),
      mismatch('White', `${A}*${gross('White')}`),
      ...whole(y),
      ambient(`0-${A}`),
      rectangular('Drift', 'DriftHalf', 'of output', y),
      other(y),
    ];
  }
  if (id === 'Colour') {
    return [
      gain(y),
      digits(`${A}*SQRT(SUMSQ(DigitsColour))`),
      display(`${A}*SQRT(${primaries})/9`),
      ...PRIMARY_STEMS.map((stem) => scatter(stem, ofMean)),
      ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${A}*${gross(stem)}`)),
      ...whole(y),
      ambient(`0-3*${A}`),
      rectangular('Drift', 'DriftHalf', 'of output', y),
      other(y),
    ];
  }
  return [
    gain('0'),
    digits(`${A}/${W}*SQRT(SUMPRODUCT((DigitsColour-${R}*DigitsWhite)^2))`),
    display(`${A}/${W}*SQRT(${primaries}+${R}^2*${rounding('White')})/9`),
    scatter('White', `0-${R}*${ofMean}/${W}`),
    ...PRIMARY_STEMS.map((stem) => scatter(stem, `${ofMean}/${W}`)),
    mismatch('White', `0-${R}*${A}*${gross('White')}/${W}`),
    ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${A}*${gross(stem)}/${W}`)),
    ...whole('0'),
    ambient(`${A}*(${R}-3)/${W}`),
    rectangular('Drift, white', 'DriftHalf', 'of output', `0-${R}`),
    rectangular('Drift, colours', 'DriftHalf', 'of output', R),
    other('0'),
  ];
}

/** Writes the budgets and what follows from them, from `row` on; returns the first row below. */
export function putBudgets(b: PlanBuilder, start: number, setup: RunSetup): number {
  let row = start;
  for (const id of budgetIds(setup)) row = putBudget(b, row, id, lines(id, setup));
  return putResults(b, row, uncertaintyResults(setup), {
    title: 'Uncertainty and decision',
    agreement: 'DecisionAgreement',
  });
}

function putBudget(b: PlanBuilder, row: number, id: BudgetId, rows: readonly Line[]): number {
  const { name, label, unit } = BUDGET_RESULT[id];
  const [first, last] = [row + 1, row + rows.length];
  b.put(`A${row}`, { role: 'heading', value: `Budget, ${label}` });
  const heads = {
    B: '±',
    C: 'shape',
    D: 'divisor',
    E: 'u',
    H: 'ν',
    J: unit ? `part, ${unit}` : 'part',
    K: 'share',
    L: 'unit of ±',
  };
  for (const [column, value] of Object.entries(heads)) b.put(`${column}${row}`, { role: 'heading', value });
  b.wide(`F${row}:G${row}`, { role: 'heading', value: 'sensitivity' });
  b.put(`I${row}`, { role: 'heading' });
  rows.forEach((line, i) => {
    const r = first + i;
    // Until the result is there, its budget is empty; then every cell is a number.
    const when = (formula: string) => `=IF(ISNUMBER(${name}Plain),${formula},"")`;
    b.put(`A${r}`, { role: 'label', value: line.label });
    b.put(`B${r}`, { role: 'derived', formula: when(line.half), format: '0.0000' });
    b.put(`C${r}`, { role: 'derived', value: line.kind });
    b.put(`D${r}`, {
      role: 'derived',
      formula: line.kind === 'rectangular' ? '=SQRT(3)' : '=1',
      format: '0.0000',
    });
    b.put(`E${r}`, { role: 'derived', formula: when(`B${r}/D${r}`), format: '0.00000' });
    b.wide(`F${r}:G${r}`, { role: 'derived', formula: when(line.sensitivity), format: '0.0000' });
    b.put(`H${r}`, { role: 'derived', value: Number(line.dof), format: DOF_FORMAT });
    b.put(`J${r}`, {
      role: 'derived',
      formula: when(`E${r}*F${r}`),
      format: id === 'Ratio' ? '0.00000' : '0.00',
    });
    b.put(`K${r}`, { role: 'derived', formula: when(`J${r}^2/SUMSQ(J$${first}:J$${last})`), format: '0 %' });
    b.put(`L${r}`, { role: 'unit', value: line.unit });
  });
  b.name(`${id}Components`, `A${first}:A${last}`, `Budget of the ${label}: components`);
  b.name(
    `${id}Halves`,
    `B${first}:B${last}`,
    `Budget of the ${label}: half-widths or standard uncertainties`,
  );
  b.name(`${id}Shapes`, `C${first}:C${last}`, `Budget of the ${label}: distributions`);
  b.name(`${id}Sensitivities`, `F${first}:F${last}`, `Budget of the ${label}: sensitivities`);
  b.name(`${id}Nu`, `H${first}:H${last}`, `Budget of the ${label}: degrees of freedom`);
  b.name(`${id}Parts`, `J${first}:J${last}`, `Budget of the ${label}: u × sensitivity, signed`);
  b.name(`${id}Shares`, `K${first}:K${last}`, `Budget of the ${label}: share in the variance`);
  return last + 2;
}
