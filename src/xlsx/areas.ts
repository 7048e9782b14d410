import { columnName, isAddress, SHEET_COLUMNS, SHEET_ROWS } from '../sheets/address';
import { damaged } from './error';

const LAST_COLUMN = columnName(SHEET_COLUMNS - 1);

/** Whole columns or whole rows. */
const WHOLE = /^\$?([A-Z]{1,3}):\$?([A-Z]{1,3})$|^\$?([1-9]\d{0,6}):\$?([1-9]\d{0,6})$/;

/**
 * The areas that a rule of a file is for, such as "B2 D4:E9"; whole columns and rows are written out as cells.
 * @param what is said of the rule where its areas are none: "an input rule of its sheet “Run 1”"
 * @throws XlsxError `damaged`
 */
export function areasOf(list: string, what: string): string[] {
  return list
    .trim()
    .split(/\s+/)
    .map((area) => {
      const [, left, right = '', top, bottom = ''] = WHOLE.exec(area) ?? [];
      const cells = left ? `${left}1:${right}${SHEET_ROWS}` : top ? `A${top}:${LAST_COLUMN}${bottom}` : area;
      if (!isAddress(cells))
        throw damaged(`${what} is for “${area.slice(0, 40)}”, where a range of cells should be named`);
      return cells;
    });
}
