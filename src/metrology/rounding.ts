/** Rounding on decimal digits, as a person does it. */

/**
 * `value` as a whole number of 10^`place`: the shortest decimal that stands for it, half away from zero. Works on
 * digits, so 1.005 becomes 101 hundredths although its binary form lies below.
 */
export function wholeUnits(value: number, place: number): bigint {
  const [mantissa, exponent] = value.toExponential().split('e') as [string, string];
  const digits = mantissa.replace(/[-.]/g, '');
  // How many of the digits stand left of the cut.
  const kept = Number(exponent) - place + 1;
  if (kept < 0) return 0n;
  // No digits at all are 0n.
  const left = BigInt(digits.slice(0, kept).padEnd(kept, '0'));
  const whole = left + (digits.charAt(kept) >= '5' ? 1n : 0n);
  return value < 0 ? -whole : whole;
}

/** `value` rounded to 10^`place`: −1 keeps tenths, 1 keeps tens. */
export function roundAt(value: number, place: number): number {
  return Number.isFinite(value) ? Number(`${wholeUnits(value, place)}e${place}`) : value;
}

/** Power of ten of the first digit: 0 for 9.96, −2 for 0.0995; 0 for 0. */
export function leadingPlace(value: number): number {
  return Number(value.toExponential().split('e')[1]);
}

/** The decimal place that leaves `digits` significant digits after rounding: 9.96 with 2 becomes 10, place 0. */
export function placeOfDigits(value: number, digits: number): number {
  const first = leadingPlace(value);
  const place = first - digits + 1;
  return leadingPlace(roundAt(value, place)) > first ? place + 1 : place;
}

/** Whole units of 10^`place` written out as a decimal number: (−5n, −2) is "-0.05", (12n, 1) is "120". */
export function written(units: bigint, place: number): string {
  if (place >= 0) return `${units}${units === 0n ? '' : '0'.repeat(place)}`;
  const digits = `${units < 0n ? -units : units}`.padStart(1 - place, '0');
  return `${units < 0n ? '-' : ''}${digits.slice(0, place)}.${digits.slice(place)}`;
}
