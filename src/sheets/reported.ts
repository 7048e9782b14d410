import { joined } from './joined';

/** Decimal places of U at two significant digits (GUM 7.2.6); 99.6 is 100, so it is rounded once before. */
function places(u: string): string {
  return `(1-INT(LOG10(ROUND(${u},1-INT(LOG10(${u}))))))`;
}

/** A figure as a number that is rounded as its U is reported; as it stands where there is no U. */
export function reportedNumber(figure: string, u: string): string {
  return `IF(COUNT(${figure},${u})<2,${figure},IF(${u}<=0,${figure},ROUND(${figure},${places(u)})))`;
}

/** A figure as a text, in as many digits as its U is reported with; both must be there. */
export function reportedText(figure: string, u: string): string {
  return joined(`FIXED(ROUND(${figure},${places(u)}),MAX(0,${places(u)}),TRUE)`);
}
