import { bad, good, invalid, type Outcome } from '../../photometry/outcome';
import { notWhole } from '../check';

/**
 * How the decision on a unit counts for its lot. `value`: by the measured value alone, conditional pass
 * conforms, conditional fail does not; `strict`: only a pass conforms; `lenient`: only a fail does not.
 */
export type Counting = 'value' | 'strict' | 'lenient';
export const COUNTINGS: readonly Counting[] = ['value', 'strict', 'lenient'];

/** Decided units of a sample as counts. Which way is fixed before the readings, like the decision rule. */
export interface Count {
  readonly inspected: number;
  readonly nonconforming: number;
}

type LotState = 'accepted' | 'rejected' | 'not finished';

export interface LotVerdict {
  readonly state: LotState;
  /** Units of the sample that are still to be inspected. */
  readonly remaining: number;
}

/**
 * The lot by the counts of its sample. Rejected as soon as there are more nonconforming units than the plan
 * allows; accepted only when the whole sample was inspected, so that the record is complete.
 */
export function lotVerdict(
  plan: { readonly sampleSize: number; readonly accept: number },
  { inspected, nonconforming }: Count,
): Outcome<LotVerdict> {
  const problems = [
    ...notWhole(plan.sampleSize, 'sample size', 1),
    ...notWhole(plan.accept, 'acceptance number', 0),
    ...notWhole(inspected, 'number of units inspected', 0),
    ...notWhole(nonconforming, 'number of nonconforming units', 0),
  ];
  if (problems.length > 0) return bad(...problems);
  if (plan.accept >= plan.sampleSize) {
    return bad(
      invalid(
        'out-of-bounds',
        'acceptance number',
        `The acceptance number must be smaller than the sample, or no lot is ever rejected; they are ${plan.accept} and ${plan.sampleSize}.`,
      ),
    );
  }
  if (nonconforming > inspected) {
    return bad(
      invalid(
        'out-of-bounds',
        'number of nonconforming units',
        `There cannot be more nonconforming units (${nonconforming}) than inspected ones (${inspected}).`,
      ),
    );
  }
  if (inspected > plan.sampleSize) {
    return bad(
      invalid(
        'out-of-bounds',
        'number of units inspected',
        `${inspected} units were inspected, the plan is for ${plan.sampleSize}: only units of the recorded draw count for the lot.`,
      ),
    );
  }
  const remaining = plan.sampleSize - inspected;
  if (nonconforming > plan.accept) return good({ state: 'rejected', remaining });
  return good({ state: remaining === 0 ? 'accepted' : 'not finished', remaining });
}
