import { absolute, type Rect } from '../../sheets/address';
import { formatAddress, requireAddress, sheetPrefix } from '../engine/reference';
import type { Sheet } from '../engine/sheet';

/** Some cells of a sheet; a range is one, and so is what has only to do with its looks. */
export interface Area {
  readonly sheet: Sheet;
  readonly rect: Rect;
}

/** A range given to a member: the object, or its address with or without a sheet. */
export function rectGiven(range: Area | string): Rect {
  return typeof range === 'string' ? requireAddress(range.slice(range.lastIndexOf('!') + 1)) : range.rect;
}

/** `='Run 1'!$B$2:$D$4`. */
export function absoluteReference({ sheet, rect }: Area): string {
  return `=${sheetPrefix(sheet.name)}${absolute(formatAddress(rect))}`;
}
