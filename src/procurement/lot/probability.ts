import { bad, good, invalid, type Outcome, type Problem } from '../../photometry/outcome';
import { notWhole } from '../check';

/** Larger lots are a slip of the hand, and would keep the spreadsheet waiting. */
export const LARGEST_LOT_SIZE = 1_000_000;

/** What a lot is inspected by: so many of it, accepted with at most so many nonconforming ones among them. */
export interface LotRule {
  readonly lotSize: number;
  readonly sampleSize: number;
  readonly accept: number;
}

export function ruleProblems({ lotSize, sampleSize, accept }: LotRule): Problem[] {
  const sizes = [
    ...notWhole(lotSize, 'lot size', 1, LARGEST_LOT_SIZE),
    ...notWhole(sampleSize, 'sample size', 1, LARGEST_LOT_SIZE),
    ...notWhole(accept, 'acceptance number', 0),
  ];
  if (sizes.length > 0) return sizes;
  if (sampleSize > lotSize) {
    return [
      invalid(
        'out-of-bounds',
        'sample size',
        `The sample cannot be larger than the lot; they are ${sampleSize} and ${lotSize}.`,
      ),
    ];
  }
  return accept < sampleSize
    ? []
    : [
        invalid(
          'out-of-bounds',
          'acceptance number',
          `The acceptance number must be smaller than the sample, or no lot is ever rejected; they are ${accept} and ${sampleSize}.`,
        ),
      ];
}

/**
 * Probability of accepting a lot of N that holds D nonconforming units, exactly (type A):
 * Σ i = 0..c of C(D,i)·C(N − D,n − i) ÷ C(N,n), the hypergeometric distribution.
 */
export function acceptProbability(rule: LotRule, nonconforming: number): Outcome<number> {
  const problems = ruleProblems(rule);
  if (problems.length > 0) return bad(...problems);
  const { lotSize: N, sampleSize: n, accept: c } = rule;
  const wrong = notWhole(nonconforming, 'number of nonconforming units', 0, N);
  if (wrong.length > 0) return bad(...wrong);
  const D = nonconforming;
  const first = Math.max(0, n - (N - D));
  const mode = Math.floor(((n + 1) * (D + 1)) / (N + 2));
  return good(
    cumulative(
      { first, last: Math.min(n, D), mode },
      c,
      (i) => ((D - i) * (n - i)) / ((i + 1) * (N - D - n + i + 1)),
    ),
  );
}

/**
 * Probability of accepting when each unit is nonconforming with probability p (type B: a long stream of lots
 * from one process): the binomial distribution.
 */
export function streamProbability(sampleSize: number, accept: number, fraction: number): Outcome<number> {
  const problems = ruleProblems({ lotSize: LARGEST_LOT_SIZE, sampleSize, accept });
  if (!(fraction >= 0 && fraction <= 1)) {
    problems.push(
      invalid(
        'out-of-bounds',
        'fraction nonconforming',
        `The fraction nonconforming must lie from 0 to 1; it is ${fraction}.`,
      ),
    );
  }
  if (problems.length > 0) return bad(...problems);
  if (fraction === 0) return good(1);
  if (fraction === 1) return good(0);
  const mode = Math.min(sampleSize, Math.floor((sampleSize + 1) * fraction));
  const odds = fraction / (1 - fraction);
  return good(
    cumulative({ first: 0, last: sampleSize, mode }, accept, (i) => ((sampleSize - i) * odds) / (i + 1)),
  );
}

/**
 * Σ up to c of a distribution on first..last from the ratio of its neighbouring terms, P(i + 1) ÷ P(i). Terms
 * are taken relative to the one at the mode, so that nothing overflows and only what does not count
 * underflows; all are positive, so their sum loses no digits.
 */
function cumulative(
  { first, last, mode }: { readonly first: number; readonly last: number; readonly mode: number },
  c: number,
  ratio: (i: number) => number,
): number {
  if (c < first) return 0;
  if (c >= last) return 1;
  let [below, above] = [0, 0];
  const add = (i: number, term: number) => {
    if (i <= c) below += term;
    else above += term;
  };
  add(mode, 1);
  for (let i = mode, term = 1; i > first && term > 0; i--) {
    term /= ratio(i - 1);
    add(i - 1, term);
  }
  for (let i = mode, term = 1; i < last && term > 0; i++) {
    term *= ratio(i);
    add(i + 1, term);
  }
  return below / (below + above);
}
