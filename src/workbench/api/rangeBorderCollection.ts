import type { IBorderData, IBorderStyleData, IStyleData } from '@univerjs/core';
import type { Rect } from '../../sheets/address';
import { colour } from '../engine/styles';
import { ApiError } from '../errors';
import { ApiCollection, type ApiHost, ApiObject } from './object';
import type { Range } from './range';
import { common } from './shape';

/** A border of a range → the cells that carry it, and on which of their sides. */
const EDGES = {
  EdgeTop: { side: 't', part: (rect: Rect): Rect => ({ ...rect, rows: 1 }) },
  EdgeBottom: {
    side: 'b',
    part: (rect: Rect): Rect => ({ ...rect, row: rect.row + rect.rows - 1, rows: 1 }),
  },
  EdgeLeft: { side: 'l', part: (rect: Rect): Rect => ({ ...rect, columns: 1 }) },
  EdgeRight: {
    side: 'r',
    part: (rect: Rect): Rect => ({ ...rect, column: rect.column + rect.columns - 1, columns: 1 }),
  },
  InsideHorizontal: { side: 'b', part: (rect: Rect): Rect => ({ ...rect, rows: rect.rows - 1 }) },
  InsideVertical: { side: 'r', part: (rect: Rect): Rect => ({ ...rect, columns: rect.columns - 1 }) },
} as const;
type Edge = keyof typeof EDGES;

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
    readonly range: Range,
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
  override readonly scalars = ['color', 'sideIndex', 'style', 'weight'];
  constructor(
    host: ApiHost,
    readonly range: Range,
    readonly edge: Edge,
  ) {
    super(host);
  }
  override identity() {
    return { _Id: this.edge };
  }
  get sideIndex() {
    return this.edge;
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

  get #cells(): Rect | undefined {
    const part = EDGES[this.edge].part(this.range.sheet.clip(this.range.rect));
    return part.rows > 0 && part.columns > 0 ? part : undefined;
  }
  #get<T>(get: (line: IBorderStyleData | undefined) => T): T | null {
    const { sheet } = this.range;
    const { side } = EDGES[this.edge];
    const cells = this.#cells;
    return cells
      ? common(cells, (row, column) => get(sheet.style(row, column).bd?.[side] ?? undefined))
      : get(undefined);
  }
  #set(change: (line: Line) => Line | null): void {
    const { sheet } = this.range;
    sheet.requireAllowed('allowFormatCells');
    const { side } = EDGES[this.edge];
    const cells = this.#cells;
    if (!cells) return;
    sheet.restyle(cells, (row, column) => {
      const bd: IBorderData = sheet.style(row, column).bd ?? {};
      const line = bd[side];
      const next = change({ s: Number(line?.s ?? 0), cl: { rgb: line?.cl?.rgb ?? '#000000' } });
      return { bd: { ...bd, [side]: next } } as IStyleData;
    });
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
