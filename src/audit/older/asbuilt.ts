import { cellName, cellsOf, contains, rectOf } from '../../sheets/address';
import type { BookCell, CellValue, Validation } from '../../sheets/book';
import { asWritten, namesIn } from '../../sheets/inner';
import { isNameOf } from '../../sheets/names/all';
import { hasAllNames } from '../../sheets/names/beside';
import type { Plan, PlanCell, PlanName } from '../../sheets/plan';
import { FORMAT } from '../../sheets/run/layout';
import { isTyped } from '../check/contents';
import { broken, isSameFormula } from '../formula/normal';
import { plainCopyOf } from '../plain';
import { cellAt, type SheetView } from '../view';
import { isFormulaMark, isKnownFormula, isKnownRule, isKnownWord, knownPlaces, markOfCell } from './known';
import { isLater, isLonger } from './methods';
import type { Renewed } from './renew';
import { retarget } from './retarget';

const plans = new WeakMap<Renewed, Plan>();

/**
 * What can be said of how a sheet of an earlier layout was built, as a plan in its own places. Names lead from today's
 * plan to them; a cell without a name stands in the row that named ones of its row do. What today's plan has, and that
 * layout too, must be there; a formula is as built if it says what today's does or if that layout is known to have it;
 * words and whatever else only that layout had are taken as they stand.
 */
export function asBuilt(renewed: Renewed): Plan {
  const plan = plans.get(renewed) ?? lay(renewed);
  plans.set(renewed, plan);
  return plan;
}

function lay(renewed: Renewed): Plan {
  const { older, plan, places } = renewed;
  const { sheet, identity } = older;
  const layout = `${identity!.kind} ${identity!.version}`;
  const back = new Map([...places].map(([to, from]) => [from, to]));
  const here = inHere(renewed);
  const today = new Set(Object.values(plan.cells).map(({ value }) => value as CellValue));
  const lines = [...older.places.values()].filter(({ name }) =>
    isLonger(identity!.kind, identity!.version, name),
  );
  const isOfLines = (at: string) => lines.some(({ address }) => contains(rectOf(address), rectOf(at)));
  // What the lines of a budget are called, and their shapes, are words in locked cells.
  const labels = lines.filter(({ name }) => /(Components|Shapes)$/.test(name));
  const isOfLabels = (at: string, { style }: BookCell) =>
    style?.locked !== false && labels.some(({ address }) => contains(rectOf(address), rectOf(at)));
  const cells: Record<string, PlanCell> = {};
  for (const [at, cell] of Object.entries(sheet.cells)) {
    if (back.has(at)) continue;
    const isBlank = cell.value === null || cell.value === '';
    if (cell.formula !== undefined) cells[at] = ownFormula(cell, at, layout, sheet.name);
    else if (isOfLines(at) && isWord(cell.value) && isKnownWord(layout, cell.value))
      // A line that today's lists do not have any more, with what could be typed on it.
      cells[at] = {
        ...looksOf(cell),
        role: 'label',
        value: cell.value,
        ...(cell.style?.locked === false ? { isOpen: true as const } : {}),
      };
    else if (!isBlank && isWord(cell.value) && (isKnownWord(layout, cell.value) || today.has(cell.value)))
      cells[at] = { ...looksOf(cell), role: 'label', value: cell.value };
    else if (isOfLabels(at, cell)) cells[at] = { role: 'label', value: OF_ITS_LAYOUT };
  }
  for (const [to, from] of places) {
    const planned = plan.cells[to];
    if (planned) cells[from] = shownAsThen(named(planned, renewed, here, layout, from), older);
  }
  const told = new Set(places.values());
  for (const [from, planned] of besides(renewed, here, layout)) {
    cells[from] = shownAsThen(planned, older);
    told.add(from);
  }
  for (const [at, planned] of lost(renewed, layout, told)) cells[at] = planned;
  return {
    ...plan,
    version: identity!.version,
    id: identity!.id,
    cells,
    ...namesOf(older, plan),
    validations: rulesOf(older, plan, places, layout),
    merges: sheet.merges,
    fills: plan.fills?.flatMap((range) => moved(range, places) ?? []),
    notes: sheet.notes,
  };
}

/** Where a cell of today's plan stands on the older sheet: a formula of today's, said in the older sheet's places. */
type Here = (formula: string) => string | undefined;

function inHere({ places, before, plan, older }: Renewed): Here {
  // Workings that have only addresses today had names.
  const written = hasAllNames(older.identity!) ? asWritten(plan) : (formula: string) => formula;
  return (formula) =>
    retarget(written(formula), (sheet, at) => (sheet === '' ? places.get(at) : before(sheet, at)), '');
}

/** A formula whose place today's plan does not tell. */
function ownFormula(cell: BookCell, at: string, layout: string, sheet: string): PlanCell {
  const formula = broken(cell.formula!)?.meant ?? cell.formula!;
  const isKnown = isKnownFormula(layout, formula, at, sheet) !== false;
  return { ...looksOf(cell), role: 'derived', formula: isKnown ? formula : UNKNOWN };
}

/** Stands for a formula that nobody built. */
const UNKNOWN = '=NA()';

function isWord(value: CellValue): value is string | number | boolean {
  return value !== null && typeof value !== 'object';
}

function looksOf({ style }: BookCell): Pick<PlanCell, 'format' | 'isOpen'> {
  return style?.format === undefined ? {} : { format: style.format };
}

/** Number formats of run sheets before layout 6, by those of today that took their place. */
const FORMER_FORMATS: Readonly<Record<string, string>> = { [FORMAT.display]: FORMAT.mean };
const FORMATS_SINCE = 6;

function shownAsThen(planned: PlanCell, { identity }: SheetView): PlanCell {
  const isFormer = identity!.kind === 'run' && identity!.version < FORMATS_SINCE;
  const format = isFormer ? FORMER_FORMATS[planned.format ?? ''] : undefined;
  return format === undefined ? planned : { ...planned, format };
}

/** A formula that says what another cell says. */
const REPEATED = /^=\$?[A-Z]{1,3}\$?\d+$/;

/** A cell whose place today's plan tells. */
function named(
  planned: PlanCell,
  { older, book }: Renewed,
  here: Here,
  layout: string,
  at: string,
): PlanCell {
  if (planned.formula === undefined || isTyped(planned)) return planned;
  const { name } = older.sheet;
  const cell = cellAt(older, at);
  const today = here(planned.formula) ?? planned.formula;
  if (cell?.formula === undefined) {
    const isKnown = isKnownFormula(layout, today, at, name) === true;
    // In a plain copy a value stands for each call of ours; whether this one was, today's formula does not tell.
    const isMeant = !isKnown && plainCopyOf(book) !== undefined && cell && isWord(cell.value);
    const { formula, ...rest } = planned;
    // A word that the layout had stands where today a formula chooses it.
    const isOwnWord = !isKnown && typeof cell?.value === 'string' && isKnownWord(layout, cell.value);
    // So does a number that today is repeated from another cell: degrees of freedom.
    const isOwnNumber =
      !isKnown &&
      typeof cell?.value === 'number' &&
      REPEATED.test(planned.formula) &&
      isKnownWord(layout, cell.value);
    if (isOwnWord || isOwnNumber) return { ...rest, value: cell.value as string };
    return isMeant ? { ...rest, value: cell.value as string } : { ...planned, formula: today };
  }
  const formula = broken(cell.formula)?.meant ?? cell.formula;
  const isAsBuilt =
    isSameFormula(formula, today, name) || isKnownFormula(layout, formula, at, name) !== false;
  return { ...planned, formula: isAsBuilt ? formula : today };
}

/**
 * Formulas, words and numbers without a name that the layout is known to have beside those that have one: where one is
 * gone or altered, that cell of today's plan, in its old place.
 */
function* besides(
  { older, plan, places }: Renewed,
  said: Here,
  layout: string,
): Generator<[string, PlanCell]> {
  const candidates = rowsOf(places);
  const head = Math.min(...[...places.keys()].map((at) => rectOf(at).row));
  const often = new Map<unknown, number>();
  for (const { value } of Object.values(plan.cells)) often.set(value, (often.get(value) ?? 0) + 1);
  const { name } = older.sheet;
  const isFormula = (formula: string, at: string) => isKnownFormula(layout, formula, at, name) === true;
  const inRow = countsByRow(plan.cells);
  const wasInRow = countsByRow(older.sheet.cells);
  /** Columns may have changed places: a word that stands in its row as often as it is planned there is there. */
  const isThere = (value: CellValue, row: number, here: readonly string[]) =>
    !here.some((at) => cellAt(older, at)?.value === value) &&
    candidates(row).some((each) => (wasInRow.get(each)?.get(value) ?? 0) >= inRow.get(row)!.get(value)!);
  const { kind, version } = older.identity!;
  const lines = namesIn(plan).filter(
    ({ name }) => isLonger(kind, version, name) || isLater(kind, version, name),
  );
  // A line that the list did not have then stood nowhere, nor did what had no name yet.
  const isNewLine = (at: string) => lines.some(({ range }) => contains(rectOf(range), rectOf(at)));
  for (const [to, planned] of Object.entries(plan.cells)) {
    if (places.has(to) || isTyped(planned) || isNewLine(to)) continue;
    const { row, column } = rectOf(to);
    const here = candidates(row).map((each) => cellName(each, column));
    const { value } = planned;
    if (planned.formula !== undefined) {
      const formula = said(planned.formula) ?? planned.formula;
      const known = here.filter((at) => isFormula(formula, at));
      const standing = known.find((at) => isFormula(cellAt(older, at)?.formula ?? '', at));
      const at = standing ?? known[0];
      if (at === undefined) continue;
      const found = standing === undefined ? undefined : cellAt(older, standing)!;
      if (found && !isSameFormula(found.formula!, formula, name)) {
        // Another one of that layout, with looks of its own.
        const { format: _, ...rest } = planned;
        yield [at, { ...rest, ...looksOf(found), formula: found.formula! }];
      } else yield [at, { ...planned, formula: found?.formula ?? formula }];
      continue;
    }
    if (value === undefined || !isKnownWord(layout, value)) continue;
    const standing = here.find((at) => cellAt(older, at)?.value === value);
    const isHead = row < head && here.length > 1;
    if (isThere(value, row, here)) continue;
    // Heads are said of what follows, too; only one of both was there.
    if (isHead && often.get(value)! > 1) continue;
    const at = standing ?? here.find((each) => !isHead || cellAt(older, each)?.style?.locked !== false);
    if (at === undefined || (!standing && !isHead && here.length > 1)) continue;
    const cell = cellAt(older, at);
    if (cell?.formula !== undefined) continue;
    const isOther = cell && isWord(cell.value) && cell.value !== '' && isKnownWord(layout, cell.value);
    if (standing || !isOther) yield [at, planned];
  }
}

/**
 * Cells that the layout is known to fill, at a distance from a name, and that hold nothing of it any more. What it was
 * is not known; that something was is.
 */
function* lost(
  { older, book }: Renewed,
  layout: string,
  told: ReadonlySet<string>,
): Generator<[string, PlanCell]> {
  // In a plain copy values stand in place of formulas.
  if (plainCopyOf(book) !== undefined) return;
  const { name } = older.sheet;
  // What several names say of one cell holds together.
  const all = new Map<string, ReadonlySet<string>>();
  for (const { at, marks } of knownPlaces(layout, older))
    all.set(at, new Set([...marks].filter((each) => all.get(at)?.has(each) !== false)));
  for (const [at, marks] of all) {
    if (told.has(at)) continue;
    const cell = cellAt(older, at);
    if (cell?.formula !== undefined && broken(cell.formula)) continue;
    const mark = cell && markOfCell(cell, at, name);
    if (mark !== undefined && marks.has(mark)) continue;
    const isFormula = [...marks].some((each) => isFormulaMark(layout, each));
    yield [at, isFormula ? { role: 'derived', formula: UNKNOWN } : { role: 'label', value: OF_ITS_LAYOUT }];
  }
}

/** Stands for a word of which only its mark is known. */
const OF_ITS_LAYOUT = '(what its layout has there)';

/** How often a value stands in each row. */
function countsByRow(
  cells: Readonly<Record<string, { readonly value?: CellValue | undefined }>>,
): Map<number, Map<unknown, number>> {
  const counts = new Map<number, Map<unknown, number>>();
  for (const [at, { value }] of Object.entries(cells)) {
    const { row } = rectOf(at);
    const own = counts.get(row) ?? new Map<unknown, number>();
    counts.set(row, own.set(value, (own.get(value) ?? 0) + 1));
  }
  return counts;
}

/**
 * The rows of the older sheet that a row of today's plan can be: where cells with names stand in it, theirs; between
 * two, as far away as the one above has moved or the one below; below the last, as that; above the first, where it
 * is, too: every layout begins with its title.
 */
function rowsOf(places: ReadonlyMap<string, string>): (row: number) => number[] {
  const shifts = new Map<number, number>();
  for (const [to, from] of places) shifts.set(rectOf(to).row, rectOf(from).row - rectOf(to).row);
  const rows = [...shifts.keys()].sort((a, b) => a - b);
  return (row) => {
    const above = rows.filter((each) => each <= row).at(-1);
    if (above === undefined)
      return [row, ...rows.slice(0, 1).map((first) => row + shifts.get(first)!)].filter(isOnSheet);
    const below = rows.find((each) => each >= row) ?? rows.at(-1);
    const moved = [above, below].flatMap((each) => (each === undefined ? [] : [row + shifts.get(each)!]));
    return moved.filter(isOnSheet);
  };
}

/** Rows from the first on, each once. */
const isOnSheet = (row: number, i: number, all: readonly number[]) => row >= 0 && all.indexOf(row) === i;

/**
 * Names that both layouts have, where they stand; a name that is lost is planned where nothing is. Those that the sheet
 * does not bear, since they stand at a fixed distance from one that it does, are inner ones.
 */
function namesOf(older: SheetView, plan: Plan): Pick<Plan, 'names' | 'inner'> {
  const own = new Map(namesIn(plan).map((name) => [name.name.toLowerCase(), name]));
  const all = [...older.places.values()].flatMap(({ name, address, comment }): PlanName[] => {
    const planned = own.get(name.toLowerCase());
    if (planned) return [{ ...planned, range: address }];
    return isNameOf(plan.kind, name) ? [{ name, range: address, comment }] : [];
  });
  if (hasAllNames(older.identity!)) return { names: all, inner: [] };
  const borne = new Set(older.sheet.names.map(({ name }) => name.toLowerCase()));
  const isBorne = ({ name }: PlanName) => borne.has(name.toLowerCase());
  return { names: all.filter(isBorne), inner: all.filter((each) => !isBorne(each)) };
}

/** Input rules that the layout is known to have, as they stand; elsewhere those of today's plan, where its cells are. */
function rulesOf(
  older: SheetView,
  plan: Plan,
  places: ReadonlyMap<string, string>,
  layout: string,
): Validation[] {
  const own = older.sheet.validations.filter((rule) => isKnownRule(layout, older, rule));
  const covered = new Set(own.flatMap(({ range }) => cellsOf(range)));
  const isFree = (range: string | undefined) =>
    range !== undefined && !cellsOf(range).some((at) => covered.has(at));
  const planned = plan.validations.flatMap((validation) => {
    const range = moved(validation.range, places);
    return isFree(range) ? [{ ...validation, range: range! }] : [];
  });
  return [...own, ...planned];
}

/** Where a range of today's plan stands on the older sheet; undefined unless it is there as a whole. */
export function moved(range: string, places: ReadonlyMap<string, string>): string | undefined {
  const cells = cellsOf(range);
  const [first, last] = [places.get(cells[0]!), places.get(cells.at(-1)!)];
  if (first === undefined || last === undefined) return undefined;
  const [a, b, whole] = [rectOf(first), rectOf(last), rectOf(range)];
  const isWhole = b.row - a.row === whole.rows - 1 && b.column - a.column === whole.columns - 1;
  if (!isWhole) return undefined;
  return cells.length === 1 ? first : `${first}:${last}`;
}
