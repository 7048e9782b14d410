/**
 * Rows above which a new page begins, so that a part of a sheet that fits on a page is not cut in two.
 *
 * @param parts first rows of the parts that may begin a page, from the top
 * @param last last row of the sheet
 * @param most rows that fit on a page
 */
export function pageBreaks(parts: readonly number[], last: number, most: number): number[] {
  const breaks: number[] = [];
  let top = 1;
  parts.forEach((start, i) => {
    const end = (parts[i + 1] ?? last + 1) - 1;
    if (start === top || end - top < most) return;
    breaks.push(start);
    top = start;
  });
  return breaks;
}
