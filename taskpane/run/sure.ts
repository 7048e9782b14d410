import type { SheetReading } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import { BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { cellOf, resultOf } from './cell';
import { type Assumption, assumptionsOf, type Contributors, contributorsOf } from './contributors';
import { type DecisionView, decisionsOf } from './decision';

/** How sure the results of a run are, as the sheet has it. */
export interface SureView {
  /** By the name of the result: `WhiteLightOutput`, `ColourLightOutput`, `ColourToWhite`. */
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
}

export function sureOf(reading: SheetReading): SureView {
  const level = cellOf(reading, 'Level');
  const figures = (Object.keys(BUDGET_RESULT) as BudgetId[]).flatMap((id) => {
    const { name, unit } = BUDGET_RESULT[id];
    const value = resultOf(reading, name);
    const [u, k, expanded] = [`${id}U`, `${id}K`, `${id}Expanded`].map((part) => resultOf(reading, part));
    if (value === undefined || u === undefined || k === undefined || expanded === undefined) return [];
    const percent = typeof level === 'number' ? `, ${Number((100 * level).toFixed(4))} %` : '';
    const text = reportText(value, expanded, unit);
    return [[name, { id, text, basis: `k = ${k.toFixed(2)}${percent}`, value, u, expanded }] as const];
  });
  return {
    figures: Object.fromEntries(figures),
    assumptions: assumptionsOf(reading),
    contributors: contributorsOf(reading),
    decisions: decisionsOf(reading),
  };
}
