import type { OfferState } from '../../src/procurement/offers/judge';

/** How a state is told: a sign that does not need colour, and words. */
export const STATE_WORDS: Readonly<Record<OfferState, readonly [sign: string, words: string]>> = {
  meets: ['\u2713', 'meets the need'],
  short: ['\u2717', 'falls short of the need'],
  ask: ['?', 'not decided: figures are missing'],
};

/** What a sheet's state cell says, in words. */
export function stateWords(state: string): string {
  const known = STATE_WORDS[state as OfferState];
  return known ? known.join(' ') : state;
}
