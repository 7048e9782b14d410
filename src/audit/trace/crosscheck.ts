import { cellCount, cellsOf, isAddress } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { nodesOf } from '../formula/ast';
import { parseOnce } from '../formula/calculate';
import { AREA_MAX, pointsAt, viewOf } from '../view';

/** An area of some sheet, without `$`. */
export interface Area {
  readonly sheet: string;
  readonly address: string;
}

/** Cells that only one of two opinions names as what a formula is computed from. */
export interface CrossCheck {
  /** The program names them, the formula as we read it does not. */
  readonly onlyProgram: readonly string[];
  /** The formula as we read it names them, the program does not. */
  readonly onlyFormula: readonly string[];
}

/**
 * Compares what a cell's formula refers to, as we read it, with what the spreadsheet program says. Programs join areas
 * that lie beside each other, so cells are compared. Undefined where the formula refers to something we cannot place,
 * or to more cells than any area of ours has.
 */
export function crossCheck(
  book: Book,
  sheet: string,
  at: string,
  program: readonly Area[],
): CrossCheck | undefined {
  const found = book.sheets.find(({ name }) => name === sheet);
  const formula = found?.cells[at]?.formula;
  const node = formula === undefined ? undefined : parseOnce(formula);
  if (!found || !node) return undefined;
  const view = viewOf(found);
  const own: Area[] = [];
  for (const part of nodesOf(node)) {
    if (part.kind === 'range') own.push({ sheet: part.sheet ?? sheet, address: part.address });
    if (part.kind !== 'name') continue;
    const place = part.sheet === undefined ? view.places.get(part.name.toLowerCase()) : undefined;
    const elsewhere = book.names.find(({ name }) => name.toLowerCase() === part.name.toLowerCase());
    const target = place ? { sheet, address: place.address } : elsewhere && pointsAt(elsewhere.refersTo);
    if (!target) return undefined;
    own.push(target);
  }
  const [ours, theirs] = [cellsIn(own), cellsIn(program)];
  if (!ours || !theirs) return undefined;
  return { onlyProgram: listed(theirs, ours, sheet), onlyFormula: listed(ours, theirs, sheet) };
}

/** Every cell as `sheet!B2`, in small letters for the sheet; undefined if there are more than any area of ours has. */
function cellsIn(areas: readonly Area[]): Set<string> | undefined {
  const found = new Set<string>();
  for (const { sheet, address } of areas) {
    if (!isAddress(address)) return undefined;
    if (found.size + cellCount(address) > AREA_MAX) return undefined;
    for (const cell of cellsOf(address)) found.add(`${sheet.toLowerCase()}!${cell}`);
  }
  return found;
}

function listed(cells: ReadonlySet<string>, others: ReadonlySet<string>, sheet: string): string[] {
  const own = `${sheet.toLowerCase()}!`;
  return [...cells]
    .filter((cell) => !others.has(cell))
    .map((cell) => (cell.startsWith(own) ? cell.slice(own.length) : cell));
}
