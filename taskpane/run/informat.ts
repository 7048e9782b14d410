import { whole } from '../../src/procurement/wording/format';

/** The first part of a number format, for positive numbers: a sign, digits before the point, digits after it, per cent. */
const PARTS = /^(\+?)[#,0]+(?:\.(0+))?( %)?/;

/**
 * A number as its cell shows it, but the same in every country: decimal point, digits grouped by a thin space. What
 * the program shows would stand as "1.484,4" beside the pane's own "1484.4".
 */
export function inFormat(value: number, format: string): string {
  const [, plus = '', decimals = '', percent = ''] = PARTS.exec(format) ?? [];
  const text = Math.abs(percent ? 100 * value : value).toFixed(decimals.length);
  const [before, after] = text.split('.') as [string, string?];
  const sign = Number(text) === 0 ? '' : value < 0 ? '\u2212' : plus;
  return `${sign}${whole(Number(before))}${after === undefined ? '' : `.${after}`}${percent}`;
}
