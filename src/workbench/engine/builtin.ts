import { absolute, type Rect } from '../../sheets/address';
import type { Name } from './names';
import { formatAddress, sheetPrefix } from './reference';
import type { Sheet } from './sheet';

/** The names Excel lists for what is printed and filtered on a sheet; the one of a filter is hidden. */
export function builtInNames(sheet: Sheet): Name[] {
  const { area, titleRows, titleColumns } = sheet.page;
  const own = (name: string, rects: readonly (Rect | undefined)[], hidden = false): Name[] => {
    const refers = rects.flatMap((rect) =>
      rect ? [`${sheetPrefix(sheet.name)}${whole(absolute(formatAddress(rect)))}`] : [],
    );
    if (refers.length === 0) return [];
    return [{ name, sheet: sheet.id, refersTo: `=${refers.join(',')}`, comment: '', hidden, serial: 0 }];
  };
  return [
    ...own('Print_Area', [area]),
    ...own('Print_Titles', [titleColumns, titleRows]),
    ...own('_FilterDatabase', [sheet.filter], true),
  ];
}

/** Whole rows and columns: `4:5` → `$4:$5`. */
const whole = (address: string) => address.replace(/^(\d+|[A-Z]+):(\d+|[A-Z]+)$/, '$$$1:$$$2');
