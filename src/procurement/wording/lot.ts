import type { SamplingPlan } from '../lot/plan';
import type { Count, LotVerdict } from '../lot/verdict';
import { units, whole } from './format';

/** The lot's verdict as one sentence for the certificate, with the counts it rests on. */
export function lotSentence(plan: SamplingPlan, count: Count, verdict: LotVerdict): string {
  const counts = `${whole(count.inspected)} of ${units(plan.sampleSize)} to be measured from a lot of ${whole(plan.lotSize)} are measured, ${whole(count.nonconforming)} of them ${count.nonconforming === 1 ? 'does' : 'do'} not conform; the plan accepts with at most ${whole(plan.accept)}`;
  switch (verdict.state) {
    case 'accepted':
      return `The lot is accepted: ${counts}.`;
    case 'rejected':
      return `The lot is rejected: ${counts}.`;
    case 'not finished':
      return `The lot is not decided yet: ${counts}; ${units(verdict.remaining)} still to be measured.`;
  }
}
