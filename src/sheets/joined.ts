/**
 * A number as it stands in a text. Spreadsheet programs join numbers to texts as their person writes them, "16,1" in
 * much of the world; with a point everywhere, a text says the same on every desk, and its seal holds. `1/2` shows what
 * stands before decimals here.
 */
export function joined(number: string): string {
  return `SUBSTITUTE(${number},MID(1/2,2,1),".")`;
}
