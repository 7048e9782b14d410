import { OVER_RANGE_SIGNS } from '../../photometry/overrange';

/*
 * `isOverRange` as spreadsheets can say it, without "=". The signs stand in one text and are looked up in it, mark to
 * mark: COUNTIF would take the text "1." for the number 1, and a rule of a cell allows no list of its own.
 */
const SIGNS = `"|${OVER_RANGE_SIGNS.join('|')}|"`;
const sought = (cells: string) => `FIND("|"&LOWER(TRIM(${cells}))&"|",${SIGNS})`;

/** Whether one cell holds a sign for over range. */
export const isOverRangeCell = (cell: string): string => `ISNUMBER(${sought(cell)})`;

/** How many cells of a range do. */
export const overRangeCount = (range: string): string => `SUMPRODUCT(ISNUMBER(${sought(range)})*1)`;
