/*
 * How a meter says that the light is too much for its range, and how people write that down (common practice): the
 * word, OL ("overload", whose O a seven-segment display draws as 0), OR, or the lone 1 that many displays leave at
 * their left edge, with the point they show behind it. A bare 1 is no sign: it is a number, which is asked about.
 */

/** Every text that stands for over range: lower case, single spaces. Formulas look them up in this order. */
export const OVER_RANGE_SIGNS = [
  'over',
  'over range',
  'over-range',
  'overrange',
  'ol',
  'ol.',
  'o.l',
  'o.l.',
  '0l',
  '0.l',
  'or',
  'or.',
  'o.r',
  'o.r.',
  '1.',
  '1 .',
  '1,',
  '1 ,',
] as const;

const SIGNS: ReadonlySet<string> = new Set(OVER_RANGE_SIGNS);

/** True for a text that stands for over range. Spaces and capitals do not count, as TRIM and LOWER of a formula. */
export function isOverRange(cell: unknown): boolean {
  return typeof cell === 'string' && SIGNS.has(cell.replace(/ +/g, ' ').replace(/^ | $/g, '').toLowerCase());
}

/** A 1 is asked about where it is more than this many times below the middle of the others. */
const LONE_FACTOR = 3;

/** Places of a number 1 among much larger ones, and the middle of those: what a cell makes of a display's lone 1. */
export function loneOnes(values: readonly unknown[]): {
  readonly at: readonly number[];
  readonly among: number;
} {
  const others = values
    .filter((value): value is number => typeof value === 'number' && value > 0 && value !== 1)
    .sort((a, b) => a - b);
  const among = others[others.length >> 1] ?? 0;
  if (among <= LONE_FACTOR) return { at: [], among };
  return { at: values.flatMap((value, i) => (value === 1 ? [i] : [])), among };
}
