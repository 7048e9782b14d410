import { leadingPlace, placeOfDigits, wholeUnits, written } from './rounding';

/** A result as people report it. */
export interface Reported {
  /** Value and U as written, without unit; to be multiplied by 10^`exponent`. */
  readonly value: string;
  readonly expanded: string;
  /** Decimal place of the last digit kept: −2 is hundredths, 1 is tens. */
  readonly place: number;
  /** 0 unless the numbers are so large or small that powers of ten read better. */
  readonly exponent: number;
}

/** Numbers of more than this many digits before the decimal point are written in powers of ten (common practice). */
const LARGE = 7;
/** So are numbers whose first digit stands this far behind it. */
const SMALL = -5;
/** Digits of a value that comes without uncertainty. */
const PLAIN_DIGITS = 6;

/**
 * U to two significant digits (GUM 7.2.6), the value to the same place, both half away from zero. With U = 0
 * there is no place to round to: the value keeps six significant digits. Value and U must be finite, U ≥ 0.
 */
export function report(value: number, expanded: number, digits = 2): Reported {
  const place = expanded > 0 ? placeOfDigits(expanded, digits) : placeOfDigits(value, PLAIN_DIGITS);
  const [v, u] = [wholeUnits(value, place), wholeUnits(expanded, place)];
  const top = leadingPlace(Math.max(Math.abs(Number(`${v}e${place}`)), Number(`${u}e${place}`)));
  const exponent = top >= LARGE || top <= SMALL ? top : 0;
  const text = written(v, place - exponent);
  return {
    value: expanded > 0 ? text : text.replace(/(\.\d*?)0+$/, '$1').replace(/\.$/, ''),
    expanded: expanded > 0 ? written(u, place - exponent) : '0',
    place,
    exponent,
  };
}

/** `(2230 ± 120) lm`; `0.982 ± 0.031` where there is no unit; `(1.23 ± 0.12) × 10⁸ lm` where powers of ten read better. */
export function reportText(value: number, expanded: number, unit = '', digits = 2): string {
  const { value: v, expanded: u, exponent } = report(value, expanded, digits);
  const pair = `${v} ± ${u}`;
  const tail = [exponent === 0 ? '' : `× 10${superscript(exponent)}`, unit].filter((part) => part !== '');
  return tail.length === 0 ? pair : `(${pair}) ${tail.join(' ')}`;
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
function superscript(exponent: number): string {
  return `${exponent}`.replace('-', '⁻').replace(/\d/g, (digit) => SUPERSCRIPTS[Number(digit)]!);
}
