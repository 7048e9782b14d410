import { bad, good, invalid, missing, type Outcome } from '../../photometry/outcome';
import { cameAs, isBlank, type RawCell } from '../../photometry/reading';
import type { Spread } from './row';

/** Lines of the table that tells how uncertain rows are, for white and, beside it, for colour. */
export const SPREAD_LINES = ['stated U', 'k', 'shared u', 'digits', 'ambient', 'part of ambient'] as const;
/** Further lines, for colour only: what red, green and blue are uncertain by on their own. */
export const OWN_LINES = ['red', 'green', 'blue'] as const;

/** A column of that table → a spread, or which line of it is no number. The stated U may be empty. */
export function spreadOf(column: readonly RawCell[], of: 'white' | 'colour'): Outcome<Spread> {
  const lines = of === 'white' ? SPREAD_LINES : [...SPREAD_LINES, ...OWN_LINES];
  const [stated] = column;
  // A blank cell reaches a function as 0, and one that a formula leaves empty as "".
  if (stated !== 0 && !isBlank(stated)) {
    const where = `uncertainty of ${of} in row 1 (${lines[0]})`;
    if (typeof stated !== 'number' || !(stated > 0) || stated === Number.POSITIVE_INFINITY)
      return bad(
        invalid(
          'not-a-number',
          where,
          `The ${where} must be a number greater than 0, or empty; it is ${cameAs(stated)}.`,
        ),
      );
    return good({ stated, k: 0, shared: 0, digits: 0, ambient: 0, ambientPart: 0, own: [] });
  }
  for (let i = 1; i < lines.length; i++) {
    const cell = column[i];
    const where = `uncertainty of ${of} in row ${i + 1} (${lines[i]})`;
    if (isBlank(cell)) return bad(missing(where, `The ${where} is missing.`));
    if (typeof cell !== 'number' || !(cell >= 0) || cell === Number.POSITIVE_INFINITY) {
      return bad(
        invalid('not-a-number', where, `The ${where} must be a number of at least 0; it is ${cameAs(cell)}.`),
      );
    }
  }
  if (column[1] === 0) {
    const where = `uncertainty of ${of} in row 2 (k)`;
    return bad(
      invalid(
        'out-of-bounds',
        where,
        `The ${where} must be greater than 0; it is 0 (an empty cell counts as 0).`,
      ),
    );
  }
  const [k, shared, digits, ambient, ambientPart, ...own] = column.slice(1, lines.length) as number[];
  return good({
    k: k!,
    shared: shared!,
    digits: digits!,
    ambient: ambient!,
    ambientPart: ambientPart!,
    own,
  });
}
