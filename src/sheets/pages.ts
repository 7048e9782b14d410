/**
 * Rows above which, or columns at whose left, a new page begins, so that a part of a sheet that fits on a page is not cut
 * in two.
 *
 * @param parts first rows of the parts that may begin a page, from the top
 * @param last last row of the sheet
 * @param fits whether one page holds the rows from the first to the second
 * @param always those of the parts that begin a page wherever they are
 */
export function pageBreaks(
  parts: readonly number[],
  last: number,
  fits: (from: number, to: number) => boolean,
  always: ReadonlySet<number> = new Set(),
): number[] {
  const breaks: number[] = [];
  let top = 1;
  parts.forEach((start, i) => {
    const end = (parts[i + 1] ?? last + 1) - 1;
    if (start === top || (fits(top, end) && !always.has(start))) return;
    breaks.push(start);
    top = start;
  });
  return breaks;
}
