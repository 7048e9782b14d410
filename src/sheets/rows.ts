import { columnName } from './address';
import type { ValidationRule } from './book';
import type { PlanBuilder } from './builder';
import type { CellName } from './names/all';
import type { Role } from './plan';
import { standOf } from './style';

/** A column of a sheet that has one line a room, an offer or a unit. */
export interface Column<T> {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly width: number;
  readonly role: Role;
  readonly format?: string;
  /** What stands in an input cell at the start. */
  readonly value?: (item: T) => string | number | undefined;
  /** Formula without "=" of a computed cell; `at` gives the cell of another column in the same row. */
  readonly formula?: (at: (key: string) => string) => string;
  /** Rule of an input, and why it is there. */
  readonly rule?: ValidationRule;
  readonly why?: string;
  /** Name of the whole column, e.g. `RoomNeed`. */
  readonly name?: CellName;
}

export interface PlacedRows {
  readonly first: number;
  readonly last: number;
  readonly next: number;
  /** `$H$12:$H$25` without the dollars: the cells of a column. */
  readonly range: (key: string) => string;
  readonly widths: Readonly<Record<string, number>>;
}

/**
 * Heads and lines from `row` on. Items fill the first lines; the rest stay empty for people to go on, with their
 * formulas in place.
 */
export function putRows<T>(
  b: PlanBuilder,
  row: number,
  columns: readonly Column<T>[],
  items: readonly T[],
  count: number,
  arrows: 'none' | 'filter' | 'filter and sort' = 'none',
): PlacedRows {
  const [first, last] = [row + 2, row + 1 + count];
  const sorts = arrows === 'filter and sort';
  const letter = new Map(columns.map(({ key }, i) => [key, columnName(i)]));
  const widths: Record<string, number> = {};
  for (const column of columns) {
    const at = letter.get(column.key)!;
    widths[at] = widthOf(column);
    const align = standOf(column);
    const stand = align ? { align } : {};
    b.put(`${at}${row}`, { role: 'head', value: column.label, ...stand });
    b.put(`${at}${row + 1}`, { role: 'unit', value: column.unit, ...stand });
    for (let r = first; r <= last; r++)
      putCell(b, `${at}${r}`, column, items[r - first], (key) => `${letter.get(key)}${r}`, sorts);
    const range = `${at}${first}:${at}${last}`;
    if (column.name) b.name(column.name, range, `${column.label}${column.unit ? `, ${column.unit}` : ''}`);
    if (column.rule) putRule(b, range, column, column.rule);
  }
  // As many lines as the head that needs most of them.
  const lines = Math.max(...columns.map((column) => linesOf(column.label, widthOf(column) / BOLD)));
  b.height(row, 15 * Math.max(2, lines));
  if (arrows !== 'none') b.filter(`A${row + 1}:${letter.get(columns.at(-1)!.key)}${last}`, sorts);
  return {
    first,
    last,
    next: last + 1,
    range: (key) => `${letter.get(key)}${first}:${letter.get(key)}${last}`,
    widths,
  };
}

/** Bold letters are about a fifth wider than the unit of a column's width. */
const BOLD = 1.2;

/** Never so narrow that a word of the head breaks. */
function widthOf({ label, width }: { readonly label: string; readonly width: number }): number {
  const longest = Math.max(...label.split(/[\s-]/).map((word) => word.length));
  return Math.max(width, Math.ceil(longest * BOLD + 0.5));
}

function putCell<T>(
  b: PlanBuilder,
  at: string,
  column: Column<T>,
  item: T | undefined,
  cell: (key: string) => string,
  sorts: boolean,
): void {
  const { role, format, value, formula } = column;
  const align = standOf(column);
  const typed = item === undefined ? undefined : value?.(item);
  b.put(at, {
    role,
    ...(format ? { format } : {}),
    ...(align ? { align } : {}),
    ...(sorts ? { isOpen: true } : {}),
    ...(formula ? { formula: `=${formula(cell)}` } : typed === undefined ? {} : { value: typed }),
  });
}

/** How a number is typed whose unit is no unit of measure. */
const TYPED: Readonly<Record<string, string>> = {
  part: 'As a part, such as 70 %.',
  'to 1': 'As a number to 1.',
  '×': '',
};

function putRule<T>(
  b: PlanBuilder,
  range: string,
  { label, unit, why = '' }: Column<T>,
  rule: ValidationRule,
): void {
  const title = label.slice(0, 32);
  const bounds =
    rule.type === 'number'
      ? `a number from ${rule.min ?? 'any'} to ${rule.max ?? 'any'}${unit in TYPED || unit === '' ? '' : `, in ${unit}`}`
      : rule.type === 'list'
        ? `one of ${rule.choices.join('; ')}`
        : rule.type === 'length'
          ? `a text of at most ${rule.max} characters`
          : 'an entry that fits';
  b.validate({
    range,
    rule,
    prompt: { title, message: `${why} ${TYPED[unit] ?? (unit && `In ${unit}.`)}`.trim().slice(0, 255) },
    refusal: { title, message: `${label}: ${bounds}, or nothing.`.slice(0, 224), style: 'stop' },
  });
}

/** Lines a text takes in a width of so many characters, broken between words as programs do. */
export function linesOf(text: string, width: number): number {
  let [lines, room] = [1, width];
  for (const word of text.split(' ')) {
    if (word.length > room && room < width) {
      lines++;
      room = width;
    }
    room -= word.length + 1;
  }
  return lines;
}
