import { cellCount, cellName, rectOf } from '../../sheets/address';

/** An area of another sheet among areas of its own: no sheet's name has a line end. */
export const AWAY = '\n';
export function away(sheet: string, address: string): string {
  return `${sheet}${AWAY}${address}`;
}

/** Cells below one another, as the lines of a table refer to them, as one range: E5, E6, E7 → E5:E7. */
export function columnsOf(areas: readonly string[], isNameless: (at: string) => boolean): string[] {
  const single = areas.filter((area) => !/[:\n]/.test(area) && isNameless(area));
  const found: string[] = [];
  const used = new Set<string>();
  for (const area of areas) {
    if (used.has(area)) continue;
    if (area.includes(AWAY)) {
      found.push(area);
      continue;
    }
    const { row, column } = rectOf(area);
    let last = row;
    while (single.includes(area) && single.includes(cellName(last + 1, column))) last++;
    for (let r = row; r <= last; r++) used.add(cellName(r, column));
    found.push(last > row ? `${area}:${cellName(last, column)}` : area);
  }
  return found;
}

/** Larger ranges are not written out value by value. */
const LISTED = 40;
/** Whether a range is written out value by value. */
export function isSmall(address: string): boolean {
  return cellCount(address) <= LISTED;
}
