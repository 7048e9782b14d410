import { addressOf, cellName, rectOf } from '../sheets/address';
import type { Border, Style } from '../sheets/book';
import { tableRect } from '../sheets/longtable';
import type { Plan } from '../sheets/plan';
import { FONT, styleOf } from '../sheets/style';
import { Formats } from './formats';
import { likeRows, type RowCopy } from './likerows';
import type { Ranges } from './ranges';
import { rectangles } from './rectangles';

/**
 * Looks and number formats of a plan's cells. A look is set on one cell, all of it in one action, and copied from there
 * to every rectangle that bears it; rows that look like rows above them are copied as a whole, over what was painted
 * there. A copied look brings its number format, and cells that are merged take no copy: looks come before merges.
 *
 * @param areas where there are cells with formats of their own, beside a long table
 */
export function writeLooks(ranges: Ranges, plan: Plan, areas: readonly string[]): void {
  const looks = new Map<string, string>();
  const styles = new Map<string, Style>();
  for (const [at, { role, align, isOpen }] of Object.entries(plan.cells)) {
    const look = `${role} ${align ?? ''} ${isOpen ?? ''}`;
    if (!styles.has(look)) styles.set(look, styleOf({ role, align, isOpen }));
    looks.set(at, look);
  }
  const formats = new Formats(plan);
  if (plan.fills) {
    paint(ranges, besideTable(plan, looks), styles);
    formats.write(ranges, areas);
    return;
  }
  const rows = new LookedRows(looks);
  paint(ranges, rows.painted, styles);
  formats.write(ranges, areas, (row) => !rows.isCopied(row));
  for (const copy of rows.copies) {
    ranges
      .at(rows.rangeOf(copy.row, copy.rows))
      .copyFrom(ranges.at(rows.rangeOf(copy.from, copy.height)), 'Formats');
    formats.carry(copy, rows.width);
  }
  formats.write(ranges, areas);
}

/** Where a look is: the look, and the rectangle that bears it. */
interface Painted {
  readonly key: string;
  readonly range: string;
}

function paint(ranges: Ranges, painted: readonly Painted[], styles: ReadonlyMap<string, Style>): void {
  const models = new Map<string, Excel.Range>();
  for (const { key, range } of painted) {
    let model = models.get(key);
    if (!model) {
      const { row, column } = rectOf(range);
      model = ranges.at(cellName(row, column));
      writeStyle(model, styles.get(key)!);
      models.set(key, model);
      if (!range.includes(':')) continue;
    }
    ranges.at(range).copyFrom(model, 'Formats');
  }
}

/** The rows of a sheet without a long table: some are painted, and the others copied from those. */
class LookedRows {
  readonly painted: readonly Painted[];
  readonly copies: readonly RowCopy[];
  readonly width: number;
  readonly #copied: ReadonlySet<number>;

  constructor(looks: ReadonlyMap<string, string>) {
    const placed = [...looks].map(([at, look]) => ({ at, look, ...rectOf(at) }));
    const most = (of: 'row' | 'column') => placed.reduce((last, place) => Math.max(last, place[of] + 1), 0);
    this.width = most('column');
    const rows = Array.from({ length: most('row') }, () => Array.from({ length: this.width }, () => ''));
    for (const { row, column, look } of placed) rows[row]![column] = look;
    this.copies = likeRows(
      rows.map((row) => (row.some(Boolean) ? row.join('|') : '')),
      (row) => rows[row]!.filter((look, i, all) => look && look !== all[i - 1]).length,
    );
    this.#copied = new Set(
      this.copies.flatMap(({ row, rows: many }) => Array.from({ length: many }, (_, i) => row + i)),
    );
    this.painted = rectangles(
      new Map(placed.filter(({ row }) => !this.isCopied(row)).map(({ at, look }) => [at, look])),
      (row) => this.isCopied(row),
    );
  }
  isCopied(row: number): boolean {
    return this.#copied.has(row);
  }
  rangeOf(row: number, rows: number): string {
    return addressOf({ row, column: 0, rows, columns: this.width });
  }
}

function besideTable(plan: Plan, looks: ReadonlyMap<string, string>): { key: string; range: string }[] {
  const table = tableRect(plan.fills)!;
  const beside = new Map<string, string>();
  const first = new Map<string, string>();
  for (const [at, look] of looks) {
    const { row, column } = rectOf(at);
    const [r, c] = [row - table.row, column - table.column];
    if (r < 0 || c < 0 || r >= table.rows || c >= table.columns) beside.set(at, look);
    else if (r === 0) first.set(at, look);
  }
  return [
    ...rectangles(beside),
    ...rectangles(first).map(({ key, range }) => ({
      key,
      range: addressOf({ ...rectOf(range), rows: table.rows }),
    })),
  ];
}

const ALIGN = { left: 'Left', center: 'Center', right: 'Right' } as const;
const VERTICAL = { top: 'Top', center: 'Center', bottom: 'Bottom' } as const;
const WEIGHT = { thin: 'Thin', medium: 'Medium' } as const;
const SIDES = {
  box: ['top', 'bottom', 'left', 'right'],
  bottom: ['bottom'],
  top: ['top'],
} as const;

/** Gives one cell a look. */
export function writeStyle(cell: Excel.Range, style: Style): void {
  cell.setCellProperties([[{ format: formatOf(style) }]]);
}

/** A look as the properties of one cell; what is left out stays as it is (reference of Excel.SettableCellProperties). */
function formatOf({ fill, color, bold, italic, size, align, vertical, wrap, border, locked }: Style) {
  return {
    font: {
      name: FONT.name,
      size: size ?? FONT.size,
      ...(color ? { color } : {}),
      ...(bold ? { bold } : {}),
      ...(italic ? { italic } : {}),
    },
    ...(fill ? { fill: { color: fill } } : {}),
    ...(align ? { horizontalAlignment: ALIGN[align] } : {}),
    ...(vertical ? { verticalAlignment: VERTICAL[vertical] } : {}),
    ...(wrap ? { wrapText: true } : {}),
    ...(border ? { borders: bordersOf(border) } : {}),
    ...(locked === false ? { protection: { locked } } : {}),
  } satisfies Excel.CellPropertiesFormat;
}

function bordersOf({ sides, color, weight }: Border): Excel.CellBorderCollection {
  const line = { style: 'Continuous', color, weight: WEIGHT[weight] } as const;
  return Object.fromEntries(SIDES[sides].map((side) => [side, line]));
}
