import { bad, chain, good, invalid, type Outcome } from '../../photometry/outcome';
import { type Draw, drawSample, listProblems } from '../../procurement/lot/draw';
import { type Inspection, type SamplingPlan, samplingPlan } from '../../procurement/lot/plan';
import { protection } from '../../procurement/lot/protection';
import type { Counting } from '../../procurement/lot/verdict';

/** Units a sheet has room for; the words and tables of larger lots are the same, their list is not for one sheet. */
export const LARGEST_LISTED_LOT = 500;

/** A lot and how it is judged, before the first unit is measured. */
export interface LotSetup extends Inspection {
  /** What was delivered, as the delivery note calls it. */
  readonly lot: string;
  /** Every unit of the lot. */
  readonly serials: readonly string[];
  /** Percent nonconforming. */
  readonly aql: number;
  readonly seed: string;
  /** Who drew, and on which day (ISO). */
  readonly drawnBy: string;
  readonly drawnOn: string;
  /** Least light output a unit must have, lm; undefined where it is not judged. */
  readonly leastWhite?: number;
  readonly leastColour?: number;
  readonly counting: Counting;
}

/** With the draw done and what the plan protects against, as the sheet records both. */
export interface DrawnLot extends LotSetup {
  readonly plan: SamplingPlan;
  readonly draw: Draw;
  readonly words: readonly string[];
}

/** Plan, draw and words for a lot. */
export function drawLot(setup: LotSetup): Outcome<DrawnLot> {
  return chain(planFor(setup), (plan) =>
    chain(listed(setup.serials), (serials) =>
      chain(drawSample(serials, plan.sampleSize, setup.seed), (draw) =>
        chain(protection(plan), (words) => good({ ...setup, plan, draw, words })),
      ),
    ),
  );
}

/** A list of which every unit can be told from the others, by the links of the sheet too. */
function listed(serials: readonly string[]): Outcome<readonly string[]> {
  const problems = listProblems(serials);
  return problems.length > 0 ? bad(...problems) : good(serials);
}

/** A plan by which the lot can be rejected at all. */
function planFor({ serials, aql, ...inspection }: LotSetup): Outcome<SamplingPlan> {
  return chain(samplingPlan(serials.length, aql, inspection), (plan) =>
    plan.reject <= plan.sampleSize
      ? good(plan)
      : bad(
          invalid(
            'out-of-bounds',
            'plan',
            `This plan rejects a lot with ${plan.reject} nonconforming units, and only ${plan.sampleSize} are measured: no lot of this size is ever rejected. Choose a smaller AQL or normal inspection.`,
          ),
        ),
  );
}
