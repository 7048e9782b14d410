import type { IStyleData } from '@univerjs/core';
import type { Area } from './area';
import { common } from './shape';

/** What all cells of a range share of their looks. */
export function getStyle<T>({ sheet, rect }: Area, get: (style: IStyleData) => T): T | null {
  return common(sheet.clip(rect), (row, column) => get(sheet.style(row, column)));
}
/** Formatting needs permission on a protected sheet. */
export function setStyle({ sheet, rect }: Area, style: IStyleData): void {
  sheet.requireAllowed('allowFormatCells');
  sheet.restyle(rect, () => style);
}
