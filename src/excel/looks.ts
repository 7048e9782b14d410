import { addressOf, type Rect, rectOf } from '../sheets/address';
import type { Border, Style } from '../sheets/book';
import { tableRect } from '../sheets/longtable';
import type { Plan } from '../sheets/plan';
import { FONT, styleOf } from '../sheets/style';
import { rectangles } from './rectangles';

/**
 * Looks of a plan's cells. A look is set property by property on one cell, which takes up to forty actions, and
 * copied from there to every rectangle that bears it, which takes two. Number formats are copied with a look, and
 * cells that are merged take no copy: looks come before both.
 */
export function writeLooks(sheet: Excel.Worksheet, plan: Plan): void {
  const models = new Map<string, Excel.Range>();
  for (const { look, style, range } of looksOf(plan)) {
    let model = models.get(look);
    if (!model) {
      const { row, column } = rectOf(range);
      model = sheet.getRange(addressOf({ row, column, rows: 1, columns: 1 }));
      writeStyle(model.format, style, 'cell');
      models.set(look, model);
      if (!range.includes(':')) continue;
    }
    sheet.getRange(range).copyFrom(model, 'Formats');
  }
}

interface Looked {
  readonly look: string;
  readonly style: Style;
  readonly range: string;
}

/** Every look with the rectangles that bear it. All rows of a long table look like its first. */
function looksOf(plan: Plan): Looked[] {
  const table = tableRect(plan.fills);
  const styles = new Map<string, Style>();
  const beside = new Map<string, string>();
  const first = new Map<string, string>();
  for (const [at, { role, align, isOpen }] of Object.entries(plan.cells)) {
    const look = `${role} ${align ?? ''} ${isOpen ?? ''}`;
    if (!styles.has(look)) styles.set(look, styleOf({ role, align, isOpen }));
    const row = table && rowIn(table, at);
    if (row === undefined) beside.set(at, look);
    else if (row === 0) first.set(at, look);
  }
  const looked = ({ key, range }: { key: string; range: string }, rows?: number): Looked => ({
    look: key,
    style: styles.get(key)!,
    range: rows === undefined ? range : addressOf({ ...rectOf(range), rows }),
  });
  return [
    ...rectangles(beside).map((one) => looked(one)),
    ...rectangles(first).map((one) => looked(one, table!.rows)),
  ];
}

/** In which row of a rectangle a cell lies, counted from 0; undefined for one outside. */
function rowIn(table: Rect, at: string): number | undefined {
  const { row, column } = rectOf(at);
  const [r, c] = [row - table.row, column - table.column];
  return r >= 0 && c >= 0 && r < table.rows && c < table.columns ? r : undefined;
}

const ALIGN = { left: 'Left', center: 'Center', right: 'Right' } as const;
const VERTICAL = { top: 'Top', center: 'Center', bottom: 'Bottom' } as const;

export function writeStyle(format: Excel.RangeFormat, style: Style, of: 'cell' | 'range' = 'range'): void {
  if (style.fill) format.fill.color = style.fill;
  if (style.color) format.font.color = style.color;
  if (style.bold) format.font.bold = true;
  if (style.italic) format.font.italic = true;
  format.font.name = FONT.name;
  format.font.size = style.size ?? FONT.size;
  if (style.align) format.horizontalAlignment = ALIGN[style.align];
  if (style.vertical) format.verticalAlignment = VERTICAL[style.vertical];
  if (style.wrap) format.wrapText = true;
  if (style.border) writeBorder(format, style.border, of);
  if (style.locked === false) format.protection.locked = false;
}

const EDGES = {
  box: ['EdgeTop', 'EdgeBottom', 'EdgeLeft', 'EdgeRight'],
  bottom: ['EdgeBottom'],
  top: ['EdgeTop'],
} as const;
/** Each cell of a range has its own line. */
const INSIDE = {
  box: ['InsideHorizontal', 'InsideVertical'],
  bottom: ['InsideHorizontal'],
  top: ['InsideHorizontal'],
} as const;

function writeBorder(
  format: Excel.RangeFormat,
  { sides, color, weight }: Border,
  of: 'cell' | 'range',
): void {
  for (const side of [...EDGES[sides], ...(of === 'range' ? INSIDE[sides] : [])]) {
    const border = format.borders.getItem(side);
    border.style = 'Continuous';
    border.color = color;
    border.weight = weight === 'thin' ? 'Thin' : 'Medium';
  }
}
