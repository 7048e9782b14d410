import { explain } from '../../photometry/outcome';
import { cellName, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { COMPARISON_VERSION, comparisonPlan, DEFAULT_COMPARISON } from '../../sheets/comparison';
import { comparable, MOST_RUNS } from '../../sheets/comparison/run';
import { every } from '../../sheets/names/every';
import type { Plan } from '../../sheets/plan';
import { BUDGET_IDS, type BudgetId } from '../../sheets/run/budgetid';
import { type SheetView, valueAt } from '../view';
import { cellsNamed, keptPlans, majority } from './cells';
import type { KindAudit, Unknown } from './kind';
import { type LinkedRun, linkedRun } from './linkedrun';
import { linkedTo } from './links';
import { type OwnLabel, resultCells, wordsNamed } from './results';

const kept = keptPlans();
/** Rows of the overview that every comparison has. */
const ROWS = ['RunNames', 'WhiteValues', 'WhiteU', 'UniformityValues', 'Prices', 'MeterCodes', 'ImageCodes'];

/** The runs of a comparison from left to right, told by what its columns are linked to. */
function comparedRuns(view: SheetView, book: Book | undefined): LinkedRun[] | Unknown {
  const rects = ROWS.flatMap((name) => {
    const address = view.places.get(name.toLowerCase())?.address;
    return address === undefined ? [] : [rectOf(address)];
  });
  const count = majority(rects.map(({ columns }) => columns)) ?? 0;
  const left = majority(rects.map(({ column }) => column)) ?? 1;
  const first = Math.min(...rects.map(({ row }) => row));
  const last = Math.max(...rects.map(({ row }) => row));
  if (count < 2 || count > MOST_RUNS) return { why: 'Its names no longer tell how many runs it compares.' };
  const runs: LinkedRun[] = [];
  for (let column = left; column < left + count; column++) {
    const cells: string[] = [];
    for (let row = first; row <= last; row++) cells.push(cellName(row, column));
    const found = linkedTo(view, cells, book);
    if ('why' in found) return found;
    if (found.identity?.kind !== 'run') return { why: `“${found.sheet.name}” is no run sheet.` };
    runs.push(linkedRun(found));
  }
  return runs;
}

function planOf(view: SheetView, book: Book | undefined): Plan | Unknown {
  const runs = comparedRuns(view, book);
  if ('why' in runs) return runs;
  const columns = runs.map(({ sheet, addresses, components }) => ({
    sheet,
    addresses,
    components,
    meter: 1,
    image: 1,
  }));
  const objection = comparable(columns);
  if (!objection.ok) return { why: explain(objection.problems) };
  return kept(JSON.stringify(columns), () => {
    const outcome = comparisonPlan(columns, DEFAULT_COMPARISON, 'expected');
    if (!outcome.ok) throw new Error(explain(outcome.problems));
    return outcome.value;
  });
}

const NAMES = [
  ...every(BUDGET_IDS, ['Values', 'U']),
  'PricesPerLumen',
  ...every(BUDGET_IDS, ['PairDifferences', 'PairU', 'PairVerdicts']),
] as const;

/** Figures of the overview by their run; agreement of functions by the quantity. */
function ownLabel(view: SheetView, plan: Plan): OwnLabel {
  const of = (id: BudgetId) => wordsNamed(plan, `${id}Values`);
  const runs = cellsNamed(plan, 'RunNames').map((at) => valueAt(view, at));
  return (at, name) => {
    const [, stem = '', nth] = /^(.*)\[(\d+)\]$/.exec(name) ?? [];
    const id = BUDGET_IDS.find((each) => stem === `${each}Values` || stem === `${each}U`);
    const run = runs[Number(nth) - 1];
    if (id) return `${stem === `${id}U` ? 'U of ' : ''}${of(id)}, ${run}`;
    if (stem === 'PricesPerLumen') return `${wordsNamed(plan, stem)}, ${run}`;
    const { row } = rectOf(at);
    const checked = BUDGET_IDS.find((each) =>
      cellsNamed(plan, `${each}Agreement`).some((cell) => rectOf(cell).row === row),
    );
    return checked && `Differences of ${of(checked)}: largest disagreement of function and plain formulas`;
  };
}

export const COMPARISON: KindAudit = {
  version: COMPARISON_VERSION,
  plan: planOf,
  results: (view, plan) => resultCells(view, plan, NAMES, ownLabel(view, plan)),
};
