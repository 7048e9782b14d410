import { cellName, cellsOf, contains, rectOf } from '../../sheets/address';
import type { Book, CellValue } from '../../sheets/book';
import { namesIn } from '../../sheets/inner';
import type { Plan, PlanCell } from '../../sheets/plan';
import { parseOnce } from '../formula/calculate';
import { evaluateWhole, isTableFormula, type Scope } from '../formula/evaluate';
import { isSameFormula } from '../formula/normal';
import { isWithoutAddIn, withoutAddIn } from '../formula/references';
import { type Grid, isError, isGrid, single } from '../formula/value';
import type { ResultCell } from '../kinds/kind';
import { inWords, isSame } from '../number';
import { cellAt, type SheetView, scopeOf, valueAt } from '../view';
import { isComputed, isTyped } from './contents';
import type { Finding } from './finding';
import { inSteps, type Steps } from './steps';

/** Stored results that are not what their formulas give with the cells as they stand. */
export function* checkStored(view: SheetView, plan: Plan, book?: Book): Steps<Finding[]> {
  const { name } = view.sheet;
  const planned = Object.entries(plan.cells).flatMap(([at, cell]) => storedFormula(view, at, cell) ?? []);
  const isCalculated = planned.some(({ at }) => valueAt(view, at) !== null);
  if (!isCalculated && planned.length > 0) {
    return [
      {
        sheet: name,
        kind: 'stale',
        severity: 'warning',
        message: 'The file holds formulas but no results: no program has calculated it since it was written.',
        expected: 'results',
        found: 'no results',
        remedy: 'refresh',
      },
    ];
  }
  const scope = scopeOf(view, book);
  const lacking = withoutAddIn(view);
  const found: Finding[] = [];
  yield* inSteps(planned, (each) => {
    for (const finding of checkFormula(view, each, scope, lacking)) found.push(finding);
  });
  return found;
}

/** A cell whose formula is of the plan, or a link that was put into an input cell. */
interface StoredFormula {
  readonly at: string;
  readonly formula: string;
  readonly role: PlanCell['role'];
}

function storedFormula(view: SheetView, at: string, planned: PlanCell): StoredFormula | undefined {
  const formula = planned.formula ?? (isTyped(planned) ? cellAt(view, at)?.formula : undefined);
  return formula === undefined ? undefined : { at, formula, role: planned.role };
}

/**
 * The same of single cells, asked one by one: of a cell with a formula its own stored value, of one that a function
 * of ours fills what that function gives.
 */
export function storedChecks(view: SheetView, { cells }: Plan, book?: Book): (at: string) => Finding[] {
  const scope = scopeOf(view, book);
  const lacking = withoutAddIn(view);
  const tables = Object.entries(view.sheet.cells).flatMap(([at, { spill, formula }]) =>
    spill !== undefined && formula !== undefined && isTableFormula(formula)
      ? [{ at, area: rectOf(spill) }]
      : [],
  );
  const known = new Map<string, Finding[]>();
  const ofFormula = (at: string): Finding[] => {
    const planned = Object.hasOwn(cells, at) ? storedFormula(view, at, cells[at]!) : undefined;
    const found = known.get(at) ?? (planned ? checkFormula(view, planned, scope, lacking) : []);
    known.set(at, found);
    return found;
  };
  return (at) => {
    const place = rectOf(at);
    const table = tables.find(({ area }) => contains(area, place));
    return ofFormula(table?.at ?? at).filter((finding) => finding.at === at);
  };
}

function checkFormula(
  view: SheetView,
  { at, formula, role }: StoredFormula,
  scope: Scope,
  lacking: ReadonlySet<string>,
): Finding[] {
  const { name } = view.sheet;
  const cell = cellAt(view, at);
  if (cell?.formula === undefined || !isSameFormula(cell.formula, formula, name)) return [];
  if (isError(cell.value) && cell.value.error === '#NAME?') return [];
  const node = parseOnce(cell.formula);
  const whole = node && evaluateWhole(node, scope);
  if (whole === undefined) return [];
  if (isGrid(whole) && isTableFormula(cell.formula)) return stale(view, at, whole, lacking);
  const value = single(whole);
  if (isSame(value, cell.value)) return [];
  const needsAddIn = isWithoutAddIn(cell.value) || (isError(cell.value) && lacking.has(at));
  return [
    {
      sheet: name,
      at,
      kind: 'stale',
      severity: needsAddIn ? 'note' : role === 'check' ? 'warning' : 'error',
      message: needsAddIn
        ? `${at} was not computed: the add-in was absent.`
        : `${at} does not hold what its formula gives: it was not recalculated, or the stored result was changed.`,
      expected: inWords(value),
      found: inWords(cell.value),
      remedy: 'refresh',
    },
  ];
}

/** Cells of a table that do not hold what its function gives; one finding where the function's own cell does not. */
function stale(view: SheetView, at: string, table: Grid, lacking: ReadonlySet<string>): Finding[] {
  const { row, column } = rectOf(at);
  const finding = (cell: string, value: CellValue, came: CellValue): Finding => {
    const isLacking = isWithoutAddIn(came) || (isError(came) && lacking.has(cell));
    return {
      sheet: view.sheet.name,
      at: cell,
      kind: 'stale',
      severity: isLacking ? 'note' : 'error',
      message: isLacking
        ? `${cell} was not computed: the add-in was absent.`
        : `${cell} does not hold what the function in ${at} gives: it was not recalculated, or the stored result was changed.`,
      expected: inWords(value),
      found: inWords(came),
      remedy: 'refresh',
    };
  };
  const own = valueAt(view, at);
  if (isError(own)) return [finding(at, table[0]?.[0] ?? null, own)];
  return table.flatMap((cells, r) =>
    cells.flatMap((value, c) => {
      const cell = cellName(row + r, column + c);
      const came = valueAt(view, cell);
      return isSame(value, came) ? [] : [finding(cell, value, came)];
    }),
  );
}

/** Functions that do not say what the plain formulas beside them say. */
export function checkAgreement(view: SheetView, results: readonly ResultCell[]): Finding[] {
  return results.flatMap((result) => disagreement(view, result));
}

/**
 * Results that do not follow from what was typed: of a sheet whose cells are not all as built and calculated, or that is
 * linked to one.
 *
 * @param again what a cell holds by its plan, calculated anew; undefined where that cannot be said
 */
export function checkFollowing(
  view: SheetView,
  plan: Plan,
  results: readonly ResultCell[],
  again: (at: string) => CellValue | undefined,
): Finding[] {
  const lacking = withoutAddIn(view);
  const labels = new Map(
    results.flatMap(({ label, at, twinAt = at }) => [[at, label] as const, [twinAt, label]]),
  );
  for (const { range, comment } of namesIn(plan))
    for (const at of cellsOf(range)) if (isComputed(plan, at) && !labels.has(at)) labels.set(at, comment);
  return [...labels].flatMap(([at, label]): Finding[] => {
    // A result that is #NAME?, or waits for one that is, is reported by itself.
    const here = valueAt(view, at);
    if (here === null || isError(here) || isWithoutAddIn(here) || lacking.has(at)) return [];
    const follows = again(at);
    if (follows === undefined || isSame(follows, here)) return [];
    return [
      {
        sheet: view.sheet.name,
        at,
        kind: 'recomputed',
        severity: 'error',
        message: `${label || 'The figure'}: ${at} is not what follows from what was typed.`,
        expected: inWords(follows),
        found: inWords(here),
        remedy: 'refresh',
      },
    ];
  });
}

function disagreement(view: SheetView, { label, at, twinAt }: ResultCell): Finding[] {
  if (twinAt === undefined) return [];
  const [value, twin] = [valueAt(view, at), valueAt(view, twinAt)];
  if (!isSaid(value) || !isSaid(twin) || isSame(value, twin)) return [];
  return [
    {
      sheet: view.sheet.name,
      at,
      kind: 'disagree',
      severity: 'error',
      message: `${label}: the function in ${at} and the plain formula in ${twinAt} disagree.`,
      expected: inWords(twin),
      found: inWords(value),
      remedy: 'refresh',
    },
  ];
}

/** A number or words; an error is neither, and is reported by itself. */
function isSaid(value: CellValue): boolean {
  return typeof value === 'number' || (typeof value === 'string' && value !== '');
}
