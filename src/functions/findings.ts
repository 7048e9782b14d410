import { explain, type Problem } from '../photometry/outcome';
import { type Finding, inspect, NOTHING } from '../photometry/plausibility';
import { at, type Conversion, displayNumbers, NINE, netIlluminances } from '../photometry/reading';
import type { Cells } from './params';

export const FIELDS = ['white', 'red', 'green', 'blue', 'black', 'ambient'] as const;
export type Field = (typeof FIELDS)[number];

/** Fields in which the meter may show 0. */
const MAY_BE_ZERO: readonly Field[] = ['black', 'ambient'];

/**
 * Everything wrong with nine readings, or odd about them, as one text; "nothing to remark" if all is well.
 * Problems that stop a result come first and alone: oddities are judged only on a complete grid.
 */
export function findings(field: Field, raw: Cells, digit: number, conversion: Conversion): string {
  const zero = MAY_BE_ZERO.includes(field) ? 'reading' : 'missing';
  const display = displayNumbers(raw, NINE, field, zero);
  if (!display.ok) return unusable(display.problems);
  // Black is judged as a mean elsewhere: single black readings may lie below ambient by the meter's noise.
  const ambient = zero === 'reading' ? 0 : conversion.ambient;
  const net = netIlluminances(display.value, NINE, field, { ...conversion, ambient });
  if (!net.ok) return explain(net.problems);
  if (zero === 'reading') return NOTHING;
  const ranges = display.value.map((_, i) => at(conversion.range, i));
  const odd = inspect({ display: display.value, ranges, digit, shape: NINE, label: field });
  return inWords(odd) || NOTHING;
}

/** Coarse readings come in nines: they are one sentence too. */
function inWords(odd: readonly Finding[]): string {
  const coarse = odd.filter(({ kind }) => kind === 'few-digits');
  if (coarse.length < 2) return odd.map(({ message }) => message).join(' ');
  const where =
    coarse.length === NINE.names.length
      ? 'all nine points'
      : coarse.map(({ index }) => NINE.names[index]).join(', ');
  return [
    ...odd.filter((finding) => !coarse.includes(finding)).map(({ message }) => message),
    `Fewer than three significant digits at ${where}: step down a range if the meter allows.`,
  ].join(' ');
}

/** Many missing readings are one sentence, not nine; anything worse is told in full. */
function unusable(problems: readonly Problem[]): string {
  const gaps = problems.filter(({ kind }) => kind === 'missing');
  const worse = problems.filter(({ kind }) => kind !== 'missing');
  if (gaps.length === NINE.names.length) return 'no readings yet';
  const list = gaps.map(({ where }) => where.replace(/^\w+ reading at /, '')).join(', ');
  return [explain(worse), list && `Missing: ${list}.`].filter(Boolean).join(' ');
}
