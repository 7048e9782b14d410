import { expand } from '../../src/metrology/coverage';
import { type Model, outputOf, spreadOf } from '../../src/metrology/model';
import { type Simulated, simulate } from '../../src/metrology/montecarlo';
import { type RunModel, runModel } from '../../src/metrology/run/model';
import { runTrial } from '../../src/metrology/run/trial';
import { validate } from '../../src/metrology/validation';
import { chain, good, type Outcome } from '../../src/photometry/outcome';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId, isLumens } from '../../src/sheets/run/budgetid';
import type { SheetInput } from '../../src/sheets/run/input';

export interface Question extends SheetInput {
  readonly trials: number;
  /** Whole number; the same seed gives the same trials. */
  readonly seed: number;
}

/** One result by the model: propagated, and simulated. In the unit of its cell on the sheet. */
export interface ModelFigures {
  readonly id: BudgetId;
  readonly value: number;
  /** By the law of propagation. */
  readonly u: number;
  readonly expanded: number;
  /** By Monte Carlo. */
  readonly simulatedU: number;
  readonly symmetric: Simulated['symmetric'];
  readonly shortest: Simulated['shortest'];
  /** Half a unit of the second digit of u: so far may the ends of the intervals lie apart (JCGM 101, clause 8). */
  readonly tolerance: number;
  readonly isNearLinear: boolean;
  /** The ends of y ± U and of the simulated interval agree within the tolerance. */
  readonly intervalsAgree: boolean;
}

/** What model and simulation say of a run. */
export interface Opinion {
  readonly figures: readonly ModelFigures[];
  readonly level: number;
  readonly trials: number;
  readonly seed: number;
}

/** Computes a run afresh from its readings: the law of propagation and a Monte Carlo of the same model. */
export function secondOpinion(
  { input, areaScale, level, trials, seed }: Question,
  onProgress: (done: number, trials: number) => void,
): Outcome<Opinion> {
  return chain(runModel(input), (model) =>
    chain(simulate(runTrial(model), { trials, seed, level, onProgress }), ({ outputs }) => {
      const figures: ModelFigures[] = [];
      for (const id of BUDGET_IDS) {
        const simulated = outputs.find((one) => one.id === BUDGET_RESULT[id].output);
        if (!simulated) continue;
        const figure = figureOf(id, model, simulated, level, isLumens(id) ? areaScale : 1);
        if (!figure.ok) return figure;
        figures.push(figure.value);
      }
      return good({ figures, level, trials, seed });
    }),
  );
}

function figureOf(
  id: BudgetId,
  model: RunModel & Model,
  simulated: Simulated,
  level: number,
  scale: number,
): Outcome<ModelFigures> {
  const coverage = { level, rounding: 'truncate' } as const;
  const output = outputOf(model, simulated.id);
  const { u, dof } = spreadOf(model.components, output);
  return chain(expand(u, dof, coverage), ({ expanded }) =>
    chain(validate(model, simulated, coverage), ({ tolerance, isNearLinear, agrees }) => {
      const scaled = ({ low, high }: Simulated['symmetric']) => ({ low: low * scale, high: high * scale });
      return good({
        id,
        value: output.value * scale,
        u: u * scale,
        expanded: expanded * scale,
        simulatedU: simulated.u * scale,
        symmetric: scaled(simulated.symmetric),
        shortest: scaled(simulated.shortest),
        tolerance: tolerance * scale,
        isNearLinear,
        intervalsAgree: agrees,
      });
    }),
  );
}
