import type { OverviewLine } from '../overview/view';

/** A sign beside the state, for those who see no colours. */
const SIGNS = { good: '\u2713', open: '\u25d0', none: '\u25cb', bad: '\u2717' } as const;

/** How a sheet stands. What came out weighs more than how far it is: a lot that is rejected is not "complete" and green, nor is a sheet whose seal does not hold. */
export function stateWords({
  tone,
  outcome,
  state,
  isBroken,
}: Pick<OverviewLine, 'tone' | 'outcome' | 'state' | 'isBroken'>) {
  const shown = outcome === 'bad' || isBroken ? 'bad' : tone;
  const words = outcome === 'bad' ? `with a failure, ${state}` : state;
  return { tone: shown, sign: SIGNS[shown], words: isBroken ? `${words}; its seal does not hold` : words };
}
