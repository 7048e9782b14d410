import type { SheetReading } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import { cellOf, resultOf, textResultOf } from './cell';

/** A decision of the sheet, with what its picture needs. */
export interface DecisionView {
  readonly id: 'White' | 'Colour';
  readonly label: string;
  readonly value: number;
  readonly expanded: number;
  readonly limit: number;
  /** Width of the guard band above the limit (and below it, where there are four outcomes); 0 without one. */
  readonly guard: number;
  readonly hasFour: boolean;
  /** "pass", "conditional fail" … as the sheet has it. */
  readonly verdict: string;
  /** Probability to conform, 0 to 1. */
  readonly probability: number | undefined;
  readonly rule: string;
  /** The whole picture in words. */
  readonly words: string;
}

/** The decisions of a run; none while the result waits, or where no value was rated. */
export function decisionsOf(reading: SheetReading): DecisionView[] {
  return (['White', 'Colour'] as const).flatMap((id) => {
    const value = resultOf(reading, `${id}LightOutput`);
    const expanded = resultOf(reading, `${id}Expanded`);
    const limit = resultOf(reading, `${id}Limit`);
    const verdict = textResultOf(reading, `${id}Verdict`);
    if (value === undefined || expanded === undefined || limit === undefined || !/pass|fail/.test(verdict))
      return [];
    const rule = String(cellOf(reading, 'DecisionRule') ?? '');
    const hasFour = rule.endsWith('four outcomes');
    const guard = rule.startsWith('guard band') ? expanded : 0;
    const probability = resultOf(reading, `${id}Probability`);
    const label = `${id} light output`;
    const view = { id, label, value, expanded, limit, guard, hasFour, verdict, probability, rule };
    return [{ ...view, words: words(view) }];
  });
}

function words({ label, value, expanded, limit, guard, hasFour, verdict }: Omit<DecisionView, 'words'>) {
  const lm = (n: number) => `${Math.round(n)} lm`;
  const band =
    guard > 0
      ? `, guard band up to ${lm(limit + guard)}${hasFour ? ` and down to ${lm(limit - guard)}` : ''}`
      : '';
  return `${label} ${reportText(value, expanded, 'lm')}, from ${lm(value - expanded)} to ${lm(value + expanded)}; limit ${lm(limit)}${band}: ${verdict}.`;
}

/** What each verdict means, in a sentence. */
export function verdictSentence({
  verdict,
  hasFour,
  guard,
}: Pick<DecisionView, 'verdict' | 'hasFour' | 'guard'>): string {
  switch (verdict) {
    case 'pass':
      return guard > 0
        ? 'Above the limit by more than its own doubt.'
        : 'Not below the limit. The rule takes no account of the doubt.';
    case 'conditional pass':
      return 'Above the limit, but by less than its own doubt: it may in truth lie below.';
    case 'conditional fail':
      return 'Below the limit, but by less than its own doubt: it may in truth lie above.';
    default:
      return guard === 0
        ? 'Below the limit. The rule takes no account of the doubt.'
        : hasFour
          ? 'Below the limit by more than its own doubt.'
          : 'Not above the limit by its own doubt, as the rule asks.';
  }
}
