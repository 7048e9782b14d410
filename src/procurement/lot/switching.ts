import type { Severity } from './master';

/** When inspection of a series of lots from one maker changes its severity, and to what. */
interface Switch {
  readonly when: string;
  readonly next: Severity | 'stopped';
}

/** Switching rules of ISO 2859-1:1999, 9.3 (from memory); what is said of the gap is MIL-STD-105E's, whose reduced plans have one. */
export const SWITCHING: Readonly<Record<Severity, readonly Switch[]>> = {
  normal: [
    { when: 'two of five or fewer consecutive lots are rejected at first inspection', next: 'tightened' },
    {
      when: 'ten consecutive lots are accepted that tightened inspection would nearly all have accepted as well (switching score of 30), production is steady and the buyer agrees',
      next: 'reduced',
    },
  ],
  tightened: [
    { when: 'five consecutive lots are accepted at first inspection', next: 'normal' },
    {
      when: 'five lots in all are rejected under tightened inspection: no more lots are taken until the maker has mended the cause',
      next: 'stopped',
    },
  ],
  reduced: [
    { when: 'a lot is rejected', next: 'normal' },
    {
      when: 'a lot has more nonconforming units than its acceptance number and fewer than its rejection number: it is accepted',
      next: 'normal',
    },
    { when: 'production becomes irregular or is interrupted, or the buyer asks for it', next: 'normal' },
  ],
};

/** The rules for the lots that follow, in a paragraph. */
export function switchingWords(severity: Severity): string {
  const rules = SWITCHING[severity].map(({ when, next }) =>
    next === 'stopped' ? `inspection stops when ${when}` : `${next} when ${when}`,
  );
  return `Of a series of lots from one maker, ${severity} inspection becomes ${rules.join('; ')}.`;
}
