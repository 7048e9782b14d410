import { explain } from '../../photometry/outcome';
import type { CellValue } from '../../sheets/book';
import type { Plan } from '../../sheets/plan';
import { runResults } from '../../sheets/run';
import { uncertaintyResults } from '../../sheets/run/verdict';
import type { RunSetup } from '../../sheets/runsetup';
import { parseOnce } from '../formula/calculate';
import { evaluate } from '../formula/evaluate';
import { normal } from '../formula/normal';
import { WITHOUT_ADD_IN, withoutAddIn } from '../formula/references';
import { isError } from '../formula/value';
import { inWords, isSame } from '../number';
import { type Recomputed, recomputeRun } from '../recompute/run';
import { cellAt, type SheetView, scopeOf, valueAt } from '../view';
import type { Finding } from './finding';

/** Stored results that are not what their formulas give with the cells as they stand. */
export function checkStored(view: SheetView, { cells }: Plan): Finding[] {
  const { name } = view.sheet;
  const planned = Object.entries(cells).filter(([, { formula }]) => formula !== undefined);
  const isCalculated = planned.some(([at]) => valueAt(view, at) !== null);
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
  const scope = scopeOf(view);
  return planned.flatMap(([at, { formula, role }]): Finding[] => {
    const cell = cellAt(view, at);
    if (cell?.formula === undefined || normal(cell.formula, name) !== normal(formula!, name)) return [];
    if (isError(cell.value) && cell.value.error === '#NAME?') return [];
    const node = parseOnce(cell.formula);
    const value = node && evaluate(node, scope);
    if (value === undefined || isSame(value, cell.value)) return [];
    const needsAddIn = cell.value === WITHOUT_ADD_IN;
    return [
      {
        sheet: name,
        at,
        kind: 'stale',
        severity: needsAddIn ? 'note' : role === 'check' ? 'warning' : 'error',
        message: needsAddIn
          ? `The remarks in ${at} were not computed: the add-in was absent.`
          : `${at} does not hold what its formula gives: it was not recalculated, or the stored result was changed.`,
        expected: inWords(value),
        found: inWords(cell.value),
        remedy: 'refresh',
      },
    ];
  });
}

/** Function = plain formula = our own recomputation from the readings, for every result of a run. */
export function checkResults(view: SheetView, setup: RunSetup): Finding[] {
  const own = recomputeRun(view, setup);
  const lacking = withoutAddIn(view);
  return [...runResults(setup), ...uncertaintyResults(setup)].flatMap(({ name, label }): Finding[] => {
    const at = view.places.get(name.toLowerCase())?.address;
    const twinAt = view.places.get(`${name}plain`.toLowerCase())?.address;
    if (at === undefined || twinAt === undefined || at.includes(':') || twinAt.includes(':')) return [];
    const [value, twin] = [valueAt(view, at), valueAt(view, twinAt)];
    const found: Finding[] = [];
    if (isNumberOrBound(value) && isNumberOrBound(twin) && !isSame(value, twin)) {
      found.push({
        sheet: view.sheet.name,
        at,
        kind: 'disagree',
        severity: 'error',
        message: `${label}: the function in ${at} and the plain formula in ${twinAt} disagree.`,
        expected: inWords(twin),
        found: inWords(value),
        remedy: 'refresh',
      });
    }
    const recomputed = own.get(name);
    for (const [cell, here] of [
      [at, value],
      [twinAt, twin],
    ] as const) {
      // A result that is #NAME?, or waits for one that is, is reported by itself.
      if (lacking.has(cell)) continue;
      const wrong = recomputed && against(recomputed, here);
      if (!wrong) continue;
      found.push({
        sheet: view.sheet.name,
        at: cell,
        kind: 'recomputed',
        severity: 'error',
        message: `${label}: ${cell} is not what follows from the readings and the set-up.`,
        expected: wrong,
        found: inWords(here),
        remedy: 'refresh',
      });
    }
    return found;
  });
}

/** What was expected, if a cell's value does not follow from the readings. Waiting and refusing texts are no value. */
function against(recomputed: Recomputed, value: CellValue): string | undefined {
  if (value === null || isError(value)) return undefined;
  if (!recomputed.ok)
    return isNumberOrBound(value) ? `no result: ${explain(recomputed.problems)}` : undefined;
  const expected = recomputed.value;
  return isSame(expected, value) ? undefined : inWords(expected);
}

function isNumberOrBound(value: CellValue): boolean {
  return typeof value === 'number' || (typeof value === 'string' && value.startsWith('at least '));
}
