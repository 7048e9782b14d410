import type { PageSetup } from '../engine/rules';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';
import { HeaderFooterGroup } from './headerFooterGroup';
import { type ApiHost, ApiObject } from './object';
import { Range } from './range';

/** Points in one of the API's units for margins. */
const UNITS: Readonly<Record<string, number>> = { Points: 1, Inches: 72, Centimeters: 72 / 2.54 };

export class PageLayout extends ApiObject {
  readonly typeName = 'PageLayout';
  override readonly scalars = [
    'bottomMargin',
    'centerHorizontally',
    'centerVertically',
    'footerMargin',
    'headerMargin',
    'leftMargin',
    'orientation',
    'printGridlines',
    'printHeadings',
    'rightMargin',
    'topMargin',
    'zoom',
  ];
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
  get centerHorizontally() {
    return this.#page.centerHorizontally;
  }
  set centerHorizontally(on: boolean) {
    this.#page.centerHorizontally = on;
  }
  get centerVertically() {
    return this.#page.centerVertically;
  }
  set centerVertically(on: boolean) {
    this.#page.centerVertically = on;
  }
  get printGridlines() {
    return this.#page.printGridlines;
  }
  set printGridlines(on: boolean) {
    this.#page.printGridlines = on;
  }
  get printHeadings() {
    return this.#page.printHeadings;
  }
  set printHeadings(on: boolean) {
    this.#page.printHeadings = on;
  }
  get leftMargin() {
    return this.#page.margins.left;
  }
  set leftMargin(points: number) {
    this.#page.margins.left = points;
  }
  get rightMargin() {
    return this.#page.margins.right;
  }
  set rightMargin(points: number) {
    this.#page.margins.right = points;
  }
  get topMargin() {
    return this.#page.margins.top;
  }
  set topMargin(points: number) {
    this.#page.margins.top = points;
  }
  get bottomMargin() {
    return this.#page.margins.bottom;
  }
  set bottomMargin(points: number) {
    this.#page.margins.bottom = points;
  }
  get headerMargin() {
    return this.#page.margins.header;
  }
  set headerMargin(points: number) {
    this.#page.margins.header = points;
  }
  get footerMargin() {
    return this.#page.margins.footer;
  }
  set footerMargin(points: number) {
    this.#page.margins.footer = points;
  }
  get headersFooters() {
    return new HeaderFooterGroup(this.host, this.sheet);
  }
  setPrintArea(area: Range | string) {
    this.#page.area = this.#range(area).rect;
  }
  setPrintTitleRows(rows: Range | string) {
    this.#page.titleRows = this.#range(rows).rect;
  }
  setPrintMargins(unit: string, margins: Partial<PageSetup['margins']>) {
    const points = UNITS[unit];
    if (points === undefined) throw new ApiError('InvalidArgument');
    for (const [side, value] of Object.entries(margins))
      this.#page.margins[side as keyof PageSetup['margins']] = Number(value) * points;
  }
  #range(area: Range | string): Range {
    return typeof area === 'string' ? Range.ofAddress(this.host, this.sheet, area) : area;
  }
}
