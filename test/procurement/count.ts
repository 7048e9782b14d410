import type { Verdict } from '../../src/metrology/decision';
import type { Count, Counting } from '../../src/procurement/lot/verdict';

const CONFORMS: Readonly<Record<Counting, readonly Verdict[]>> = {
  value: ['pass', 'conditional pass'],
  strict: ['pass'],
  lenient: ['pass', 'conditional pass', 'conditional fail'],
};

/** Decided units of a sample as counts, past the formulas of a lot's sheet, which count the same. */
export function count(verdicts: readonly Verdict[], counting: Counting): Count {
  return {
    inspected: verdicts.length,
    nonconforming: verdicts.filter((verdict) => !CONFORMS[counting].includes(verdict)).length,
  };
}
