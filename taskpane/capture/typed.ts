import { isOverRange } from '../../src/photometry/overrange';
import { ABSURD_LUX } from '../../src/photometry/reading';
import { type IlluminanceUnit, LUX } from '../../src/photometry/units';
import { type DecimalMark, plainText, typedNumber } from '../parse/number';
import { shown } from '../parse/quantity';
import { unitOf } from '../parse/units';
import type { Step } from './task';

/** What became of the text in the number entry. */
export type Typed =
  | { readonly kind: 'blank' }
  /** `sign` is the lone 1 as it was typed: it is said back, for it might have been a number. */
  | { readonly kind: 'over'; readonly sign?: string }
  | { readonly kind: 'number'; readonly value: number; readonly proves?: DecimalMark }
  /** Two readings of the text, a factor of 1000 apart. */
  | { readonly kind: 'ask'; readonly text: string; readonly point: number; readonly comma: number }
  | { readonly kind: 'refused'; readonly message: string };

/** Reads a display number as somebody typed it: "1 234,5 lx", "12.5", "over". Nothing is converted or guessed. */
export function readTyped(
  raw: string,
  { zero }: Pick<Step, 'zero'>,
  unit: IlluminanceUnit,
  factor: number,
  mark?: DecimalMark,
): Typed {
  const text = plainText(raw);
  const quoted = `\u201c${text}\u201d`;
  const refused = (message: string): Typed => ({ kind: 'refused', message });
  if (isOverRange(text)) return { kind: 'over', ...(text.startsWith('1') ? { sign: text } : {}) };
  const typed = typedNumber(text, mark);
  if (typed.kind === 'blank') return { kind: 'blank' };
  if (typed.kind === 'unreadable') return refused(`${quoted} is no number.`);
  if (typed.unit !== '' && unitOf(typed.unit) !== unit) {
    const known = unitOf(typed.unit);
    return refused(
      known === 'lx' || known === 'fc'
        ? `The readings of this sheet are in ${unit}; ${known} was typed, and nothing is converted unasked.`
        : `\u201c${typed.unit}\u201d is no unit of the display. Type the number alone.`,
    );
  }
  if (typed.kind === 'ambiguous') return { kind: 'ask', text, point: typed.point, comma: typed.comma };
  const { value, proves } = typed;
  if (value < 0) return refused('A reading is not negative.');
  if (value === 0 && zero === 'missing')
    return refused('0 cannot be a reading of a lit field. If there is none, go on with the arrow down.');
  if (value * factor * LUX[unit] > ABSURD_LUX) {
    const most = shown(Math.floor(ABSURD_LUX / LUX[unit]));
    return refused(
      `${shown(value)} × ${shown(factor)} is more than ${most} ${unit}, twice full sunlight. Is the range factor right?`,
    );
  }
  return { kind: 'number', value, ...(proves ? { proves } : {}) };
}
