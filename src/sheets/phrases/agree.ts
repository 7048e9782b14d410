/*
 * When a function and its plain twin say the same, in one phrase for all sheets, without "=".
 *
 * The tolerance is what two sound programs may differ by: quantiles of the normal and of Student's distribution agree
 * to about 1e-8 from one spreadsheet program to the next (seen with LibreOffice against a statistics library), sums
 * and products to 1e-12. A reading changed by one step of its display shifts a result a thousand times further.
 */

/** Results of two programs are the same up to this part of their size. */
export const SAME_PART = 1e-8;
/** Added to the size: what is left of equal numbers taken from each other, as a drift of 2e-16, is no difference. */
const SAME_LEAST = 1e-4;

const plainly = (value: number) => value.toFixed(Math.max(0, -Math.floor(Math.log10(value))));

/** Whether a number is the same as what it is held against. */
export const isSameNumber = (own: number, other: number): boolean =>
  Math.abs(own - other) <= SAME_PART * (Math.abs(other) + SAME_LEAST);

/** The same of two cells that hold numbers. */
export const sameNumbers = (own: string, other: string): string =>
  `ABS(${own}-${other})<=${plainly(SAME_PART)}*(ABS(${other})+${plainly(SAME_LEAST)})`;

/** The same of a relative difference found already. */
export const isSamePart = (difference: string): string => `${difference}<=${plainly(SAME_PART)}`;

export const AGREE = 'agree';
export const DIFFER = 'differ';
/** Without the add-in only the plain formula has a result. */
export const PLAIN_ONLY = 'plain formula only';

/** "agree" or "differ". */
export const verdictOn = (isSame: string): string => `IF(${isSame},"${AGREE}","${DIFFER}")`;

/** Which texts of a pair are results, to be compared aloud; the others only say what is still missing. */
export interface Texts {
  /** None unless given; a condition on a cell, or all of them. */
  readonly results?: 'all' | ((cell: string) => string);
  /** What stands beside two texts that are alike and no results. */
  readonly idle?: string;
  /** What stands beside a function that failed where its twin has no result either. */
  readonly unclear?: string;
}

/** Says in words whether a function's cell and its plain twin agree. */
export function agreement(custom: string, twin: string, texts: Texts = {}): string {
  const { results, idle = '', unclear = 'see left' } = texts;
  const isText = typeof results === 'function' ? results : undefined;
  const isResult = isText ? `OR(ISNUMBER(${twin}),${isText(twin)})` : `ISNUMBER(${twin})`;
  const alone = results === 'all' ? `"${PLAIN_ONLY}"` : `IF(${isResult},"${PLAIN_ONLY}","${unclear}")`;
  const said = isText ? `IF(${isText(custom)},"${AGREE}","${idle}")` : `"${results ? AGREE : idle}"`;
  const alike = `IF(${custom}=${twin},${said},"${DIFFER}")`;
  return `IF(ISERROR(${custom}),${alone},IF(COUNT(${custom},${twin})=2,${verdictOn(sameNumbers(custom, twin))},${alike}))`;
}
