import type { IBorderData, IBorderStyleData, IStyleData } from '@univerjs/core';
import type { Rect } from '../../sheets/address';
import { colour } from '../engine/styles';
import { ApiError } from '../errors';
import type { Area } from './area';
import { ApiCollection, type ApiHost, ApiObject } from './object';
import { common } from './shape';

/** Sides of a range that the workbench draws (`Excel.BorderIndex` has diagonals beside). */
type Edge = 'EdgeTop' | 'EdgeBottom' | 'EdgeLeft' | 'EdgeRight' | 'InsideHorizontal' | 'InsideVertical';

/** One line of a range: the cells that carry it, and on which of their sides. */
interface Strip {
  readonly side: 't' | 'b' | 'l' | 'r';
  readonly part: (rect: Rect) => Rect;
}
const lastRow = (rect: Rect): Rect => ({ ...rect, row: rect.row + rect.rows - 1, rows: 1 });
const lastColumn = (rect: Rect): Rect => ({ ...rect, column: rect.column + rect.columns - 1, columns: 1 });

/** A border of a range → its lines. One between two cells belongs to both, as in Excel's files. */
const EDGES: Readonly<Record<Edge, readonly Strip[]>> = {
  EdgeTop: [{ side: 't', part: (rect) => ({ ...rect, rows: 1 }) }],
  EdgeBottom: [{ side: 'b', part: lastRow }],
  EdgeLeft: [{ side: 'l', part: (rect) => ({ ...rect, columns: 1 }) }],
  EdgeRight: [{ side: 'r', part: lastColumn }],
  InsideHorizontal: [
    { side: 'b', part: (rect) => ({ ...rect, rows: rect.rows - 1 }) },
    { side: 't', part: (rect) => ({ ...rect, row: rect.row + 1, rows: rect.rows - 1 }) },
  ],
  InsideVertical: [
    { side: 'r', part: (rect) => ({ ...rect, columns: rect.columns - 1 }) },
    { side: 'l', part: (rect) => ({ ...rect, column: rect.column + 1, columns: rect.columns - 1 }) },
  ],
};

/** Line codes of the engine (`BorderStyleTypes` of @univerjs/core) ↔ the API's style and weight. */
const LINES = [
  { code: 1, style: 'Continuous', weight: 'Thin' },
  { code: 2, style: 'Continuous', weight: 'Hairline' },
  { code: 8, style: 'Continuous', weight: 'Medium' },
  { code: 13, style: 'Continuous', weight: 'Thick' },
  { code: 3, style: 'Dot', weight: 'Thin' },
  { code: 4, style: 'Dash', weight: 'Thin' },
  { code: 9, style: 'Dash', weight: 'Medium' },
  { code: 7, style: 'Double', weight: 'Thick' },
] as const;

export class RangeBorderCollection extends ApiCollection<RangeBorder> {
  readonly typeName = 'RangeBorderCollection';
  override readonly scalars = ['count'];
  constructor(
    host: ApiHost,
    readonly range: Area,
  ) {
    super(host);
  }
  get count() {
    return Object.keys(EDGES).length;
  }
  all() {
    return (Object.keys(EDGES) as Edge[]).map((edge) => new RangeBorder(this.host, this.range, edge));
  }
  getItem(key: unknown) {
    if (typeof key !== 'string' || !(key in EDGES))
      throw new ApiError('ApiNotAvailable', `The workbench does not have the border ${String(key)}.`);
    return new RangeBorder(this.host, this.range, key as Edge);
  }
}

class RangeBorder extends ApiObject {
  readonly typeName = 'RangeBorder';
  override readonly scalars = ['color', 'style', 'weight'];
  constructor(
    host: ApiHost,
    readonly range: Area,
    readonly edge: Edge,
  ) {
    super(host);
  }
  override identity() {
    return { _Id: this.edge };
  }
  get style(): string | null {
    const code = this.#get((line) => Number(line?.s ?? 0));
    return code === null ? null : (LINES.find((line) => line.code === code)?.style ?? 'None');
  }
  set style(style: string) {
    if (style === 'None') this.#set(() => null);
    else this.#set((line) => ({ ...line, s: codeOf(style, undefined, line) }));
  }
  get weight(): string | null {
    const code = this.#get((line) => Number(line?.s ?? 0));
    return code === null ? null : (LINES.find((line) => line.code === code)?.weight ?? 'Thin');
  }
  set weight(weight: string) {
    this.#set((line) => ({ ...line, s: codeOf(undefined, weight, line) }));
  }
  get color(): string | null {
    return this.#get((line) => (line?.cl?.rgb ? colour(line.cl.rgb) : '#000000'));
  }
  set color(value: string) {
    this.#set((line) => ({ s: line.s || 1, cl: { rgb: colour(value) } }));
  }

  /** The lines that have cells: a single cell has no inside. */
  get #strips(): readonly { side: Strip['side']; cells: Rect }[] {
    const rect = this.range.sheet.clip(this.range.rect);
    return EDGES[this.edge]
      .map(({ side, part }) => ({ side, cells: part(rect) }))
      .filter(({ cells }) => cells.rows > 0 && cells.columns > 0);
  }
  #get<T>(get: (line: IBorderStyleData | undefined) => T): T | null {
    const { sheet } = this.range;
    const strip = this.#strips[0];
    return strip
      ? common(strip.cells, (row, column) => get(sheet.style(row, column).bd?.[strip.side] ?? undefined))
      : get(undefined);
  }
  #set(change: (line: Line) => Line | null): void {
    const { sheet } = this.range;
    sheet.requireAllowed('allowFormatCells');
    for (const { side, cells } of this.#strips) {
      // Cells with the same border before get the same one.
      const changed = new Map<IBorderData | undefined, IStyleData>();
      sheet.restyle(cells, (row, column) => {
        const before = sheet.style(row, column).bd ?? undefined;
        const known = changed.get(before);
        if (known) return known;
        const bd: IBorderData = before ?? {};
        const line = bd[side];
        const next = change({ s: Number(line?.s ?? 0), cl: { rgb: line?.cl?.rgb ?? '#000000' } });
        const style = { bd: { ...bd, [side]: next } } as IStyleData;
        changed.set(before, style);
        return style;
      });
    }
  }
}
interface Line {
  readonly s: number;
  readonly cl: { readonly rgb: string };
}

/** The engine's code for a style or weight, keeping the other of the two where that combination exists. */
function codeOf(style: string | undefined, weight: string | undefined, line: Line): number {
  const now = LINES.find(({ code }) => code === line.s);
  const wanted = { style: style ?? now?.style ?? 'Continuous', weight: weight ?? now?.weight ?? 'Thin' };
  const exact = LINES.find((item) => item.style === wanted.style && item.weight === wanted.weight);
  const near = LINES.find((item) => (style === undefined ? item.weight === weight : item.style === style));
  const found = exact ?? near;
  if (!found)
    throw new ApiError('InvalidArgument', `The workbench does not have the border ${style ?? weight}.`);
  return found.code;
}
