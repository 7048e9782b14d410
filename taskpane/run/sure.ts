import type { SheetReading } from '../../src/excel/host';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { cellOf, resultOf } from './cell';
import { type Assumption, assumptionsOf, type Contributors, contributorsOf } from './contributors';
import { type DecisionView, decisionsOf } from './decision';
import { reported } from './reported';

/** How sure the results of a run are, as the sheet has it. */
export interface SureView {
  /** By the name of the result: `WhiteLightOutput`, `ColourToWhite`, `UniformityMinMax` … */
  readonly figures: Readonly<Partial<Record<string, SureFigure>>>;
  readonly assumptions: readonly Assumption[];
  readonly contributors: readonly Contributors[];
  readonly decisions: readonly DecisionView[];
}

/** A result with its expanded uncertainty as people report it. */
export interface SureFigure {
  readonly id: BudgetId;
  /** "(2230 ± 120) lm" */
  readonly text: string;
  /** "k = 2.00, 95.45 %" */
  readonly basis: string;
  readonly value: number;
  readonly u: number;
  readonly expanded: number;
  /** What the sheet says against its own U, which takes the result for near linear; empty where it says nothing. */
  readonly doubt: string;
}

/** How a sheet's sentence begins where its U is not to be trusted (`src/sheets/run/trust.ts`). */
const ROUGH = 'U is rough';
/** Results that are far from linear in some runs: their sheets say so. */
const DOUBTED = ['Uniformity', 'Contrast', 'Board'] as const;

export function sureOf(reading: SheetReading): SureView {
  const level = cellOf(reading, 'Level');
  const figures = BUDGET_IDS.flatMap((id) => {
    const { name } = BUDGET_RESULT[id];
    const value = resultOf(reading, name);
    const [u, k, expanded] = (['U', 'K', 'Expanded'] as const).map((end) => resultOf(reading, `${id}${end}`));
    if (value === undefined || u === undefined || k === undefined || expanded === undefined) return [];
    const percent = typeof level === 'number' ? `, ${Number((100 * level).toFixed(4))} %` : '';
    const doubted = DOUBTED.find((each) => each === id);
    const trust = doubted ? String(cellOf(reading, `${doubted}Trust`) ?? '') : '';
    const figure: SureFigure = {
      id,
      text: reported(id, value, expanded),
      basis: `k = ${k.toFixed(2)}${percent}`,
      value,
      u,
      expanded,
      doubt: trust.startsWith(ROUGH) ? trust : '',
    };
    return [[name, figure] as const];
  });
  return {
    figures: Object.fromEntries(figures),
    assumptions: assumptionsOf(reading),
    contributors: contributorsOf(reading),
    decisions: decisionsOf(reading),
  };
}
