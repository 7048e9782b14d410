/** Numbers inside sentences: plain, the same in every country's settings, digits grouped by a narrow no-break space. */

const GROUP = '\u202f';

/** A whole number, digits grouped by three where there are more than four: 940, 4200, 12 500. */
export function whole(value: number): string {
  const digits = String(Math.round(value));
  return digits.replace(/^-/, '').length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, GROUP);
}

/** A part as per cent in two significant digits: 0.8 is "80 %", 0.0167 is "1.7 %". */
export function percent(part: number): string {
  return `${Number((part * 100).toPrecision(2))} %`;
}

/** The same of a figure that a contract holds people to: all that was typed, without the rest of the product. */
export function exactPercent(part: number): string {
  return `${Number((part * 100).toPrecision(12))} %`;
}

/** A probability as per cent; what is not quite certain never reads as certain. */
export function chance(probability: number): string {
  if (probability === 1) return '100 %';
  if (probability > 0.999) return 'more than 99.9 %';
  if (probability > 0 && probability < 0.001) return 'less than 0.1 %';
  return `${Number((probability * 100).toFixed(1))} %`;
}

/** Rounded up to the next whole multiple of `step`: what is asked for must never be rounded down. */
export function roundUp(value: number, step: number): number {
  // The division may land a rounding of doubles above a whole number; that is no reason for a step more.
  return Math.ceil((value / step) * (1 - 1e-12)) * step;
}

/** Light output asked for is rounded up to a multiple of this, lm, in the words of a tender and on the offers sheet. */
export const ASKED_STEP = 10;

/** "1 unit", "2 units". */
export function units(count: number): string {
  return `${whole(count)} ${count === 1 ? 'unit' : 'units'}`;
}
