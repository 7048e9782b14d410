import { normalCdf, normalQuantile, tCdf, tQuantile } from '../../metrology/student';
import type { CellValue } from '../../sheets/book';
import { meets } from './compare';
import { index, match } from './lookup';
import { hypergeometric, hypergeometricTo, round, roundUp } from './rounding';
import { exact, find, fixed, left, length, lower, mid, substitute, trim, upper } from './texts';
import {
  failed,
  flatten,
  isError,
  isGrid,
  lifted,
  type Plain,
  single,
  toNumber,
  toTruth,
  type Value,
} from './value';

/** The numbers among the arguments: of ranges only the numbers, of single arguments whatever reads as one. */
function numbers(args: readonly Value[]): number[] | CellValue {
  const found: number[] = [];
  for (const { value, inRange } of flatten(args)) {
    if (isError(value)) return value;
    if (inRange && typeof value !== 'number') continue;
    const number = toNumber(value);
    if (isError(number)) return number;
    found.push(number);
  }
  return found;
}

const over =
  (reduce: (values: readonly number[]) => CellValue): Plain =>
  (args) => {
    const found = numbers(args);
    return Array.isArray(found) ? reduce(found) : (found as CellValue);
  };

const math = (f: (x: number) => number): Plain =>
  lifted((arg) => {
    const x = toNumber(arg);
    if (isError(x)) return x;
    const y = f(x);
    return Number.isFinite(y) ? y : failed('#NUM!');
  });

const is = (test: (value: CellValue) => boolean): Plain => lifted(test);

const truths =
  (combine: (values: readonly boolean[]) => boolean): Plain =>
  (args) => {
    const found: boolean[] = [];
    for (const { value, inRange } of flatten(args)) {
      if (inRange && (value === null || typeof value === 'string')) continue;
      const truth = toTruth(value);
      if (isError(truth)) return truth;
      found.push(truth);
    }
    return found.length > 0 ? combine(found) : failed('#VALUE!');
  };

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
// Not spread into one call: a range may hold more cells than a call takes arguments.
const largest = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b), values[0] ?? 0);
const smallest = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b), values[0] ?? 0);

const squares = (values: readonly number[]) => sum(values.map((x) => x ** 2));

function deviations(values: readonly number[]): CellValue {
  if (values.length === 0) return failed('#NUM!');
  const middle = sum(values) / values.length;
  return squares(values.map((x) => x - middle));
}

/** A function of numbers; what it cannot compute is a #NUM!. */
const ofNumbers =
  (f: (...args: number[]) => number): Plain =>
  (args) => {
    const found = numbers(args.map((arg) => single(arg)));
    if (!Array.isArray(found)) return found as CellValue;
    const y = f(...found);
    return Number.isFinite(y) ? y : failed('#NUM!');
  };

/** Upper tail of Student's t, one- or two-sided; spreadsheets cut ν to a whole number. */
function tTail(t: number, nu: number, tails: number): number {
  if (t < 0 || nu < 1 || (tails !== 1 && tails !== 2)) return Number.NaN;
  return tails * tCdf(-t, Math.floor(nu));
}

function tTwoSided(p: number, nu: number): number {
  return p <= 0 || p > 1 || nu < 1 ? Number.NaN : tQuantile(1 - p / 2, Math.floor(nu));
}

const cellsOf = (args: readonly Value[]) => flatten(args).map(({ value }) => value);

/** Functions that the formulas of our sheets use, as any spreadsheet program has them. */
export const FUNCTIONS_PLAIN: Readonly<Record<string, Plain>> = {
  SUM: over(sum),
  AVERAGE: over((values) => (values.length > 0 ? sum(values) / values.length : failed('#DIV/0!'))),
  MIN: over(smallest),
  MAX: over(largest),
  COUNT: (args) =>
    flatten(args).filter(
      ({ value, inRange }) =>
        typeof value === 'number' || (!inRange && value !== null && !isError(toNumber(value))),
    ).length,
  COUNTA: (args) => cellsOf(args).filter((value) => value !== null).length,
  COUNTIF: ([range = null, criterion = null]) =>
    cellsOf([range]).filter((value) => meets(value, single(criterion))).length,
  SQRT: math(Math.sqrt),
  ABS: math(Math.abs),
  INT: math(Math.floor),
  EXP: math(Math.exp),
  LN: math(Math.log),
  SUMSQ: over(squares),
  SUMPRODUCT: over(sum),
  DEVSQ: over(deviations),
  NORMSINV: ofNumbers((p) => (p > 0 && p < 1 ? normalQuantile(p) : Number.NaN)),
  NORMSDIST: ofNumbers(normalCdf),
  TINV: ofNumbers(tTwoSided),
  TDIST: ofNumbers(tTail),
  PI: () => Math.PI,
  N: ([arg = null]) => {
    const value = single(arg);
    return isError(value) ? value : typeof value === 'number' ? value : value === true ? 1 : 0;
  },
  ISNUMBER: is((value) => typeof value === 'number'),
  ISTEXT: is((value) => typeof value === 'string'),
  ISBLANK: is((value) => value === null),
  ISERROR: is(isError),
  AND: truths((values) => values.every(Boolean)),
  OR: truths((values) => values.some(Boolean)),
  NOT: ([arg = null]) => {
    const truth = toTruth(single(arg));
    return isError(truth) ? truth : !truth;
  },
  INDEX: index,
  MATCH: match,
  ROWS: ([area = null]) => (isError(area) ? area : isGrid(area) ? area.length : 1),
  EXACT: exact,
  FIND: find,
  LEFT: left,
  LEN: length,
  LOWER: lower,
  UPPER: upper,
  TRIM: trim,
  MID: mid,
  SUBSTITUTE: substitute,
  FIXED: fixed,
  LOG10: math(Math.log10),
  ROUND: ofNumbers(round),
  ROUNDUP: ofNumbers(roundUp),
  HYPGEOMDIST: ofNumbers(hypergeometric),
  'HYPGEOM.DIST': ofNumbers(hypergeometricTo),
  ISNA: is((value) => isError(value) && value.error === '#N/A'),
};
