import { columnName, type Rect, rectOf } from './address';
import type { PrintSetup } from './book';
import { pageBreaks } from './pages';
import { FONT } from './style';

/** Of a page, in inches; wide enough for office printers. The footer stands in the lower one. */
export const MARGINS = { left: 0.4, right: 0.4, top: 0.5, bottom: 0.6, header: 0.3, footer: 0.3 } as const;

/** Smallest print, in points, and what it makes of the size on the screen, in whole per cent. */
const LEAST_POINTS = 8;
const LEAST_SCALE = Math.ceil((100 * LEAST_POINTS) / FONT.size);

/** A4 (ISO 216) and Letter, in points: the sheet is to fit on whichever a printer has. */
const PAPERS = [
  { short: (210 / 25.4) * 72, long: (297 / 25.4) * 72 },
  { short: 8.5 * 72, long: 11 * 72 },
] as const;

/** Printers do not keep the widths of the screen to the point. */
const RESERVE = 0.98;

/** Of rows and columns that nobody set. */
const ROW_POINTS = 15;
const COLUMN_CHARACTERS = 8.43;

/** What a plan says of its pages. */
export type Pages = Pick<PrintSetup, 'orientation' | 'titles' | 'titleColumns'> & {
  /** What is printed, where that is not everything. */
  readonly area?: string;
  /** All on one page, as small as it takes. */
  readonly isOne?: true;
  /** Columns that may begin a page where the sheet is wider than one; any, if none are given. */
  readonly groups?: readonly string[];
};

interface Sizes {
  readonly columns: Readonly<Record<string, number>>;
  readonly rows: Readonly<Record<string, number>>;
  /** Rows that may begin a page, and those of them that always do. */
  readonly parts: readonly number[];
  readonly always: ReadonlySet<number>;
}

/** Column widths are planned in characters: 7 pixels each, 5 of padding, three quarters of a point a pixel. */
export function columnPoints(characters: number): number {
  return (characters * 7 + 5) * 0.75;
}

/**
 * The print set-up of a sheet that is readable on A4 and Letter alike: as large as its width allows, over several pages
 * across where one would make it too small, and no part cut in two that fits on a page.
 *
 * @param whole everything the plan holds
 * @throws where even columns by themselves are too wide
 */
export function printSetup(
  { isOne, groups, area, ...pages }: Pages,
  whole: string,
  sizes: Sizes,
): PrintSetup {
  const printed = area ?? whole;
  if (isOne) return { ...pages, area: printed, wide: 1, tall: 1 };
  const rect = rectOf(printed);
  const room = roomOf(pages.orientation);
  const across = columnsAcross(rect, pages.titleColumns, groups, sizes.columns);
  const breaks = breaksAcross(across, room.width);
  const starts = [1, ...breaks];
  const widest = Math.max(
    ...starts.map((start, i) => across.width(start, (starts[i + 1] ?? across.last + 1) - 1)),
  );
  const scale = Math.min(100, Math.floor((100 * room.width) / widest));
  if (scale < LEAST_SCALE) throw new Error(`${printed} would be printed at ${scale} %`);
  const height = heights(sizes.rows, pages.titles);
  const last = rect.row + rect.rows;
  const below = pageBreaks(
    sizes.parts,
    last,
    (from, to) => height(from, to) <= (100 * room.height) / scale,
    sizes.always,
  );
  return {
    ...pages,
    area: printed,
    wide: 0,
    tall: 0,
    scale,
    ...(breaks.length > 0
      ? { columnBreaks: breaks.map((start) => columnName(rect.column + start - 1)) }
      : {}),
    ...(below.length > 0 ? { breaks: below } : {}),
  };
}

/** How many columns are on the first page across. */
export function columnsOfFirstPage(
  { orientation, titleColumns, groups, area }: Pages & { readonly area: string },
  columns: Sizes['columns'],
): number {
  const across = columnsAcross(rectOf(area), titleColumns, groups, columns);
  const [second = across.last + 1] = breaksAcross(across, roomOf(orientation).width);
  return second - 1;
}

/** Columns, counted from 1, that begin a further page across. */
function breaksAcross({ parts, last, width }: Across, room: number): number[] {
  return pageBreaks(parts, last, (from, to) => width(from, to) <= (100 * room) / LEAST_SCALE);
}

function roomOf(orientation: PrintSetup['orientation']): { width: number; height: number } {
  const [across, down] =
    orientation === 'portrait' ? (['short', 'long'] as const) : (['long', 'short'] as const);
  const least = (side: 'short' | 'long') => Math.min(...PAPERS.map((paper) => paper[side]));
  return {
    width: RESERVE * (least(across) - 72 * (MARGINS.left + MARGINS.right)),
    height: RESERVE * (least(down) - 72 * (MARGINS.top + MARGINS.bottom)),
  };
}

type Across = ReturnType<typeof columnsAcross>;

/** The columns of what is printed, counted from 1, and how wide a page of some of them is with those that repeat. */
function columnsAcross(
  { column, columns }: Rect,
  titles: string | undefined,
  groups: readonly string[] | undefined,
  widths: Readonly<Record<string, number>>,
) {
  const points = (from: number, to: number) => {
    let sum = 0;
    for (let c = from; c <= to; c++)
      sum += columnPoints(widths[columnName(column + c - 1)] ?? COLUMN_CHARACTERS);
    return sum;
  };
  const repeated = titles ? rectOf(titles.replace(/(\w+):(\w+)/, '$11:$21')).columns : 0;
  const free = Array.from({ length: columns - repeated }, (_, i) => repeated + 1 + i);
  return {
    last: columns,
    parts: groups ? groups.map((letter) => rectOf(`${letter}1`).column - column + 1) : free,
    width: (from: number, to: number) => (from > repeated ? points(1, repeated) : 0) + points(from, to),
  };
}

function heights(rows: Readonly<Record<string, number>>, titles: string | undefined) {
  const points = (from: number, to: number) => {
    let sum = 0;
    for (let row = from; row <= to; row++) sum += rows[String(row)] ?? ROW_POINTS;
    return sum;
  };
  const [first, last] = titles?.split(':').map(Number) ?? [];
  const repeated =
    first !== undefined && last !== undefined ? { last, points: points(first, last) } : undefined;
  return (from: number, to: number) =>
    points(from, to) + (repeated && from > repeated.last ? repeated.points : 0);
}
