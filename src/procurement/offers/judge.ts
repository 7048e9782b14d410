/** `ask`: the figure is not stated, so nothing can be said yet. */
export type OfferState = 'meets' | 'short' | 'ask';

export interface Judged {
  readonly state: OfferState;
  /** Offered minus asked for, lm; negative where it falls short. */
  readonly margin?: number;
  /** Offered ÷ asked for. */
  readonly part?: number;
}

/** Figures are typed with few digits, needs computed with many: a rounding of doubles must not decide. */
const MARGIN = 1 - 1e-9;

/** One stated light output (lm) against the one asked for. */
export function judge(offered: number | undefined, asked: number): Judged {
  if (offered === undefined) return { state: 'ask' };
  return {
    state: offered >= asked * MARGIN ? 'meets' : 'short',
    margin: offered - asked,
    part: offered / asked,
  };
}

/** Both together: short in one is short; otherwise what is missing must be asked for. */
export function together(a: OfferState, b: OfferState): OfferState {
  if (a === 'short' || b === 'short') return 'short';
  return a === 'ask' || b === 'ask' ? 'ask' : 'meets';
}
