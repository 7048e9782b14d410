import { absolute, type Rect } from '../../sheets/address';
import type { Name } from './names';
import { formatAddress, sheetPrefix } from './reference';
import type { Sheet } from './sheet';

/** The names Excel lists for what is printed and filtered on a sheet; the one of a filter is hidden. */
export function builtInNames(sheet: Sheet): Name[] {
  const { area, titleRows } = sheet.page;
  const own = (name: string, rect: Rect | undefined, hidden = false): Name[] =>
    rect
      ? [
          {
            name,
            sheet: sheet.id,
            refersTo: `=${sheetPrefix(sheet.name)}${whole(absolute(formatAddress(rect)))}`,
            comment: '',
            hidden,
            serial: 0,
          },
        ]
      : [];
  return [
    ...own('Print_Area', area),
    ...own('Print_Titles', titleRows),
    ...own('_FilterDatabase', sheet.filter, true),
  ];
}

/** Whole rows: `4:5` → `$4:$5`. */
const whole = (address: string) => address.replace(/^(\d+):(\d+)$/, '$$$1:$$$2');
