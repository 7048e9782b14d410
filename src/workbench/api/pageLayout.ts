import type { PageSetup } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { type Area, rectGiven } from './area';
import { HeaderFooterGroup } from './headerFooterGroup';
import { type ApiHost, ApiObject } from './object';

/** `Excel.PrintMarginUnit`. */
const POINTS: Readonly<Record<string, number>> = { Points: 1, Inches: 72, Centimeters: 72 / 2.54 };

export class PageLayout extends ApiObject {
  readonly typeName = 'PageLayout';
  override readonly scalars = ['orientation', 'zoom'];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  get #page(): PageSetup {
    return this.sheet.page;
  }
  get orientation() {
    return this.#page.orientation;
  }
  set orientation(orientation: PageSetup['orientation']) {
    if (orientation !== 'Portrait' && orientation !== 'Landscape') throw new ApiError('InvalidArgument');
    this.#page.orientation = orientation;
  }
  get zoom() {
    return this.#page.zoom;
  }
  set zoom(zoom: PageSetup['zoom']) {
    this.#page.zoom = zoom;
  }
  get headersFooters() {
    return new HeaderFooterGroup(this.host, this.sheet);
  }
  setPrintArea(area: Area | string) {
    this.#page.area = rectGiven(area);
  }
  setPrintTitleRows(rows: Area | string) {
    this.#page.titleRows = rectGiven(rows);
  }
  setPrintTitleColumns(columns: Area | string) {
    this.#page.titleColumns = rectGiven(columns);
  }
  setPrintMargins(unit: string, margins: Readonly<Record<string, number>>) {
    const points = POINTS[unit];
    if (points === undefined) throw new ApiError('InvalidArgument');
    const given = Object.entries(margins).map(([side, size]) => [side, size * points]);
    this.#page.margins = { ...this.#page.margins, ...Object.fromEntries(given) };
  }
}
