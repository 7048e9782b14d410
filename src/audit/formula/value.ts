import type { CellError, CellValue, ErrorKind } from '../../sheets/book';

/** What part of a formula yields: one value, or the cells of a range, row by row. */
export type Value = CellValue | Grid;
export type Grid = readonly (readonly CellValue[])[];

/** A spreadsheet function whose arguments are all computed first. */
export type Plain = (args: readonly Value[]) => Value;

/** A function of one cell; given a range, as inside SUMPRODUCT, it works cell by cell. */
export function lifted(f: (cell: CellValue, ...rest: Value[]) => CellValue): Plain {
  return ([arg = null, ...rest]) => {
    if (!isGrid(arg) || (arg.length === 1 && arg[0]!.length === 1)) return f(single(arg), ...rest);
    return arg.map((row) => row.map((cell) => f(cell, ...rest)));
  };
}

export function isGrid(value: Value): value is Grid {
  return Array.isArray(value);
}
export function isError(value: Value | undefined): value is CellError {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
export function failed(error: ErrorKind, message?: string): CellError {
  return message === undefined ? { error } : { error, message };
}

/** All cells of some arguments, and whether each came from a range, where texts and empty cells count for nothing. */
export function flatten(args: readonly Value[]): { value: CellValue; inRange: boolean }[] {
  return args.flatMap((arg): { value: CellValue; inRange: boolean }[] =>
    isGrid(arg) ? arg.flat().map((value) => ({ value, inRange: true })) : [{ value: arg, inRange: false }],
  );
}

/** One cell as one value: a range of one cell is that cell; of a larger one a formula of ours takes none. */
export function single(value: Value): CellValue {
  if (!isGrid(value)) return value;
  return value.length === 1 && value[0]!.length === 1 ? value[0]![0]! : failed('#VALUE!');
}

/** A value where a number is wanted: empty is 0, a text that reads as a number is that number. */
export function toNumber(value: CellValue): number | CellError {
  if (isError(value)) return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'number') return value;
  const number = value.trim() === '' ? Number.NaN : Number(value);
  return Number.isFinite(number) ? number : failed('#VALUE!');
}

/** A value where a text is wanted: numbers with fifteen digits, as a spreadsheet joins them to a text. */
export function toText(value: CellValue): string | CellError {
  if (isError(value)) return value;
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return typeof value === 'number' ? String(Number(value.toPrecision(15))) : value;
}

export function toTruth(value: CellValue): boolean | CellError {
  if (typeof value === 'boolean') return value;
  if (typeof value === 'string') return failed('#VALUE!');
  const number = toNumber(value);
  return isError(number) ? number : number !== 0;
}
