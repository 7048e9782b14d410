import { isOpen } from '../order';
import { stepWords } from '../task';
import type { Guard } from './doubt';
import { peersOf, short } from './light';

/** Fewer steps of the last digit are fewer than three significant digits. */
const THREE_DIGITS = 100;

/** A lone 1 at the left edge of the display means over range on many meters (common practice). */
export const loneOne: Guard = ({ step, value }) =>
  value === 1 && step.zero === 'missing'
    ? {
        kind: 'lone-one',
        isQuestion: true,
        message:
          'A lone 1 at the left edge of the display means over range on many meters: then press *. Or is the reading really 1?',
        note: `${stepWords(step)}: the display showed the number 1, not over range`,
      }
    : undefined;

/**
 * Fewer than three significant digits (common practice). In a higher range it is a question, for a lower one may
 * show more; in the lowest it is said once a field, and dark fields are what they are.
 */
export const fewDigits: Guard = (candidate) => {
  const { task, step, value, factor } = candidate;
  if (value >= THREE_DIGITS * task.digit) return undefined;
  const isDark = step.light === 'black' || step.light === 'ambient';
  const isLowest = factor <= 1;
  if (isLowest && (isDark || peersOf(candidate).length > 0)) return undefined;
  const digits = `${short(value)} has fewer than three significant digits`;
  return {
    kind: 'digits',
    isQuestion: !isLowest,
    message: isLowest
      ? `${digits}; if the meter has a finer range, step down.`
      : `${digits}: does the meter show more one range down? Step it down, press \u2212 to match, and read again.`,
    note: `${stepWords(step)}: ${short(value)} × ${short(factor)} kept with few digits`,
  };
};

/** Readings of one field in different ranges: the ranges of many meters differ by a few per cent (common practice). */
export const mixedRanges: Guard = (candidate) => {
  const { step, factor } = candidate;
  const others = peersOf(candidate).filter(({ step: other }) => other.group === step.group);
  const before = others.at(-1)?.step.factor;
  if (before === undefined || others.some(({ step: other }) => other.factor === factor)) return undefined;
  return {
    kind: 'mixed',
    isQuestion: false,
    message: `× ${short(factor)} here and × ${short(before)} before: range steps differ by a few per cent on many meters.`,
    note: '',
  };
};

/** The closing reading belongs after all the others, or it says nothing of the drift during them. */
export const order: Guard = ({ step, steps }) => {
  const isClosing = step.peers === 'last';
  if (!isClosing) {
    const closing = steps.find(({ peers }) => peers === 'last');
    if (!closing || isOpen(closing)) return undefined;
    return {
      kind: 'order',
      isQuestion: false,
      message: 'The closing reading was already taken: take it once more at the end.',
      note: '',
    };
  }
  const open = steps.filter((other) => other.key !== step.key && isOpen(other)).length;
  if (open === 0) return undefined;
  const count = `${open} reading${open === 1 ? ' is' : 's are'} still open`;
  return {
    kind: 'order',
    isQuestion: true,
    message: `This is the closing reading, and ${count}. It shows the drift only of what was read before it.`,
    note: `${stepWords(step)}: taken while ${count}`,
  };
};
