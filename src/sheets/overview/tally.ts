import { rectOf } from '../address';
import type { CellValue } from '../book';
import type { ByName, CellName } from '../names/all';

/** Cells behind names of a sheet; without values while nothing but their places is known. */
export type NamedCells = ByName<{
  readonly address: string;
  readonly values?: readonly (readonly CellValue[])[];
}>;

/** A number told from the cells behind names of another sheet: once as a formula there, once from their values here. */
export type Tally =
  /** Cells that hold a number. */
  | { readonly count: 'numbers'; readonly names: readonly CellName[] }
  /** Cells that hold anything: of cells people type into. */
  | { readonly count: 'filled'; readonly name: CellName }
  /** Cells with one of these words. */
  | { readonly count: 'words'; readonly name: CellName; readonly words: readonly string[] }
  /** All cells, whatever they hold. */
  | { readonly count: 'cells'; readonly names: readonly CellName[] }
  /** The number in a cell; 0 where there is none. */
  | { readonly count: 'value'; readonly name: CellName }
  /** The same, or so many where it is less. */
  | { readonly count: 'at least'; readonly name: CellName; readonly least: number };

/** A name of another sheet → a reference to its cells. Called only for names that are there. */
export type Refer = (name: CellName) => string;

/** The names of a tally that a sheet has. */
function present(tally: Tally, cells: NamedCells): readonly CellName[] {
  const names = 'names' in tally ? tally.names : 'name' in tally ? [tally.name] : [];
  return names.filter((name) => cells[name]);
}

/** Whether the sheet has what is counted. */
export function canTally(tally: Tally, cells: NamedCells): boolean {
  return present(tally, cells).length > 0;
}

/** As a formula without "=". */
export function tallyFormula(tally: Tally, cells: NamedCells, refer: Refer): string {
  const names = present(tally, cells);
  const refs = names.map(refer);
  switch (tally.count) {
    case 'numbers':
      return `COUNT(${refs.join(',')})`;
    case 'filled':
      return `COUNTA(${refs[0]})`;
    case 'words':
      return tally.words.map((word) => `COUNTIF(${refs[0]},"${word}")`).join('+');
    case 'cells':
      return String(sizeOf(names, cells));
    case 'value':
      return `N(${refs[0]})`;
    case 'at least':
      return `MAX(${tally.least},N(${refs[0]}))`;
  }
}

/** From the values that were read. */
export function tallyValue(tally: Tally, cells: NamedCells): number {
  const names = present(tally, cells);
  const values = names.flatMap((name) => cells[name]!.values?.flat() ?? []);
  switch (tally.count) {
    case 'numbers':
      return values.filter((value) => typeof value === 'number').length;
    case 'filled':
      return values.filter((value) => value !== null).length;
    case 'words':
      return values.filter((value) => tally.words.some((word) => word === value)).length;
    case 'cells':
      return sizeOf(names, cells);
    case 'value':
      return numberOf(values[0]);
    case 'at least':
      return Math.max(tally.least, numberOf(values[0]));
  }
}

function numberOf(value: CellValue | undefined): number {
  return typeof value === 'number' ? value : 0;
}

function sizeOf(names: readonly CellName[], cells: NamedCells): number {
  return names
    .map((name) => rectOf(cells[name]!.address))
    .reduce((sum, { rows, columns }) => sum + rows * columns, 0);
}
