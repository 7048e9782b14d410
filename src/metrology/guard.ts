import { good, type Outcome } from '../photometry/outcome';
import { notAtLeastZero, notFinite, unless } from './check';

/** How wide the guard band is: fixed in the set-up, before the readings (ISO/IEC 17025, 7.1.3). */
export type Guard =
  /** Simple acceptance: no guard band. */
  | { readonly kind: 'none' }
  /** A multiple of U; 1 is the common rule (ILAC-G8), 0.83 that of ISO 14253-1 for 5 %. */
  | { readonly kind: 'expanded'; readonly factor: number };

/** Width w of the guard band, in the unit of the result. */
export function guardWidth(guard: Guard, expanded: number): Outcome<number> {
  if (guard.kind === 'none') return good(0);
  return unless(
    [...notFinite(guard.factor, 'guard band factor'), ...notAtLeastZero(expanded, 'expanded uncertainty')],
    () => guard.factor * expanded,
  );
}
