import type { OverviewLine } from '../overview/view';

/** A sign beside the state, for those who see no colours. */
const SIGNS = { good: '\u2713', open: '\u25d0', none: '\u25cb', bad: '\u2717' } as const;

/** How a sheet stands. What came out weighs more than how far it is: a lot that is rejected is not "complete" and green. */
export function stateWords({ tone, outcome, state }: Pick<OverviewLine, 'tone' | 'outcome' | 'state'>) {
  const shown = outcome === 'bad' ? 'bad' : tone;
  return { tone: shown, sign: SIGNS[shown], words: shown === 'bad' ? `with a failure, ${state}` : state };
}
