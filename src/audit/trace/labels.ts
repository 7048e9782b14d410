import { wordsOf } from '../../functions/record';
import { CORNER_NAMES, GRID_NAMES } from '../../photometry/points';
import { cellName, contains, rectOf } from '../../sheets/address';
import { namesIn } from '../../sheets/inner';
import type { Plan } from '../../sheets/plan';
import { once } from '../once';
import { type Place, type SheetView, valueAt } from '../view';

/** Words and units for the cells of one sheet. */
export interface Labels {
  /** The named area that a cell or range is, or lies in; the smallest if it lies in several. */
  home(address: string): Place | undefined;
  /** `white readings, top left`; `image area`; else the label written beside it. */
  of(address: string): string;
  /** The same without the place in the grid: what a range of formulas has in common. */
  area(address: string): string;
  /** In small words: `WhiteNet` → `white net`. */
  word(name: string): string;
  unit(address: string): string;
}

export function labelsOf(view: SheetView, plan: Plan | undefined): Labels {
  const places = [...view.places.values()].map((place) => ({ place, rect: rectOf(place.address) }));
  places.sort((a, b) => size(a.rect) - size(b.rect));
  const planned = plan ? namesIn(plan) : [];
  const comments = new Map(planned.map(({ name, comment }) => [name.toLowerCase(), comment]));
  const comment = ({ name, comment: own }: Place) => comments.get(name.toLowerCase()) ?? own;
  const home = once((address) => {
    const area = rectOf(address);
    return places.find(({ rect }) => contains(rect, area))?.place;
  });
  return {
    home,
    word: (name) => wordsOf(name).trim(),
    of: (address) => {
      const place = home(address);
      if (!place) return besides(view, plan, address);
      if (place.address === address) return splitUnit(comment(place)).words || wordsOf(place.name).trim();
      return `${wordsOf(place.name).trim()}, ${position(place.address, address, view)}`;
    },
    area: (address) => {
      const place = home(address);
      return place ? wordsOf(place.name).trim() : headingOf(view, plan, headOf(address)) || address;
    },
    unit: (address) => {
      const place = home(address);
      const said = place ? splitUnit(comment(place)).unit : '';
      return said || typedUnit(view, place?.name ?? '') || besideUnit(view, plan, address);
    },
  };
}

function headOf(address: string): string {
  return address.split(':')[0]!;
}

function size({ rows, columns }: { rows: number; columns: number }): number {
  return rows * columns;
}

const UNITS = /,\s*(: 1|lx|lm|cd\/m²|fL|m²|m|mm)$/;

/** "Image area, m²" → words and unit. */
export function splitUnit(comment: string): { words: string; unit: string } {
  const unit = UNITS.exec(comment)?.[1] ?? '';
  return { words: comment.replace(UNITS, ''), unit };
}

/** Units that depend on what was chosen in the set-up. */
function typedUnit(view: SheetView, name: string): string {
  const chosen = (input: string) => {
    const place = view.places.get(input);
    const value = place ? valueAt(view, place.address) : null;
    return typeof value === 'string' ? value : '';
  };
  if (/^(ImageLength|Side[A-Z]|Diagonal)/.test(name) && !/^Side(Difference|Miss)$/.test(name))
    return chosen('lengthunit');
  if (/^(.*Readings|.*Repeat\d|LastReading|Pattern[ABC])$/.test(name))
    return `${chosen('meterunit')} on the display`;
  if (name === 'ImageWidth' || name === 'ImageHeight') return 'm';
  return name === 'ImageArea' ? 'm²' : '';
}

/** A percentage by its format, or what stands in the unit column of a result's row. */
function besideUnit(view: SheetView, plan: Plan | undefined, address: string): string {
  const first = headOf(address);
  const { row } = rectOf(first);
  if (view.sheet.cells[first]?.style?.format?.includes('%')) return '%';
  const at = cellName(row, 3);
  const value = valueAt(view, at);
  return plan?.cells[at]?.role === 'unit' && typeof value === 'string' ? value : '';
}

/** The label at the left of the row and the heading of the column; its address if there is neither. */
function besides(view: SheetView, plan: Plan | undefined, address: string): string {
  const { row, rows } = rectOf(address);
  const label = rows > 1 ? '' : words(view, cellName(row, 0));
  return [label, headingOf(view, plan, headOf(address))].filter(Boolean).join(': ') || address;
}

/** The heading above a cell in its column, by the plan; empty if there is none. */
function headingOf(view: SheetView, plan: Plan | undefined, cell: string): string {
  const { row, column } = rectOf(cell);
  for (let r = row - 1; r >= 0; r--) {
    const at = cellName(r, column);
    if (plan?.cells[at]?.role.startsWith('head')) return words(view, at);
  }
  return '';
}

function words(view: SheetView, at: string): string {
  const value = valueAt(view, at);
  return typeof value === 'string' ? value.trim() : '';
}

/** Where in a named grid a cell lies: "top left" of a 3 × 3 grid, or row and column. */
function position(area: string, at: string, view: SheetView): string {
  const [whole, cell] = [rectOf(area), rectOf(at)];
  const [r, c] = [cell.row - whole.row, cell.column - whole.column];
  if (cell.rows * cell.columns > 1) return at;
  if (whole.rows === 3 && whole.columns === 3) return GRID_NAMES[3 * r + c]!;
  if (whole.rows === 2 && whole.columns === 2) return CORNER_NAMES[2 * r + c]!;
  if (whole.columns === 1) {
    const label = valueAt(view, cellName(cell.row, 0));
    return typeof label === 'string' && label !== '' ? label.trim() : `row ${r + 1}`;
  }
  return `row ${r + 1}, column ${c + 1}`;
}
