import type { Component } from '../../../metrology/component';
import { BUDGET_RESULT, type BudgetId, isLumens } from '../../../sheets/run/budgetid';
import { modelOf } from '../../recompute/model';
import type { SheetView } from '../../view';
import { runSetup } from '../run';

/** One row of a budget: signed part of the uncertainty, in the unit of the result, and its degrees of freedom. */
export interface Part {
  readonly part: number;
  readonly dof: number;
}

/**
 * The rows of a run's budget from its uncertainty model, which knows single causes: those of one row are added up
 * as squares. Undefined if the run is not complete or a cause has no row.
 */
export function budgetParts(view: SheetView, id: BudgetId, labels: readonly string[]): Part[] | undefined {
  const found = modelOf(view, runSetup(view));
  if (!found.ok) return undefined;
  const { model, areaScale } = found.value;
  const output = model.outputs.find((each) => each.id === BUDGET_RESULT[id].output);
  if (!output) return undefined;
  const scale = isLumens(id) ? areaScale : 1;
  const rows = labels.map(() => ({ sum: 0, square: 0, count: 0, dof: Number.POSITIVE_INFINITY }));
  for (const [i, component] of model.components.entries()) {
    const contribution = output.sensitivities[i]! * component.u * scale;
    const at = labels.findIndex((label) => belongs(component, label, labels));
    // What cancels may leave what rounding leaves.
    const isNothing = Math.abs(contribution) <= ROUNDING * Math.abs(output.value * scale);
    if (at < 0 && !isNothing) return undefined;
    const row = rows[at];
    if (!row || isNothing) continue;
    row.sum += contribution;
    row.square += contribution ** 2;
    row.count++;
    row.dof = component.dof;
  }
  return rows.map(({ sum, square, count, dof }, i) => ({
    // The sheet's row of digits stands for all ranges, and bears no sign.
    part: count === 1 && !labels[i]!.startsWith('Meter, ± digits') ? sum : Math.sqrt(square),
    dof,
  }));
}

const ROUNDING = 1e-14;

/** Whether a cause of the model is in a row of the sheet's budget. */
function belongs({ id }: Component, label: string, labels: readonly string[]): boolean {
  const [, stem, of = ''] = /^(Repeatability|Spectral mismatch|Linearity|Drift), ([\w ]+)$/.exec(label) ?? [];
  if (stem === 'Repeatability') return id.startsWith(`repeatability:${of.replace(/ tiles$/, ' tile')}:`);
  if (stem === 'Linearity') return id === `linearity:${of}`;
  if (stem === 'Spectral mismatch' && of === 'added light') return id === 'spectral:white';
  // White is a mixture: of primaries that have no row of their own its row holds the mismatch as well.
  if (stem === 'Spectral mismatch' && of === 'white')
    return /^spectral:(white|red|green|blue)$/.test(id) && !labels.includes('Spectral mismatch, red');
  if (stem === 'Spectral mismatch') return id === `spectral:${of}`;
  if (stem === 'Drift') return id === `drift:${of}`;
  return ROWS.some(([words, pattern]) => words === label && pattern.test(id));
}

const ROWS: readonly (readonly [string, RegExp])[] = [
  ['Meter, ± of reading', /^gain$/],
  ['Meter, ± digits', /^digits:/],
  ['Display step', /^resolution:/],
  ['Placing of the meter', /^placing:/],
  ['Image size', /^(width|height|size)$/],
  ['Image not square', /^square$/],
  ['Ambient light', /^ambient$/],
  ['Drift', /^drift:/],
  ['Sensor in front of the screen', /^sensor$/],
  ['Light the room sends back', /^room$/],
  ['Another cause', /^other:/],
  ['Screen gain', /^screen$/],
];
