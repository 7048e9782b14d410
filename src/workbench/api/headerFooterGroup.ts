import type { Sheet } from '../engine/sheet';
import { type ApiHost, ApiObject } from './object';

export class HeaderFooterGroup extends ApiObject {
  readonly typeName = 'HeaderFooterGroup';
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
  get defaultForAllPages() {
    return new HeaderFooter(this.host, this.sheet);
  }
}

/** The six texts around a printed page, with Excel's codes such as `&P`. */
class HeaderFooter extends ApiObject {
  readonly typeName = 'HeaderFooter';
  override readonly scalars = [
    'centerFooter',
    'centerHeader',
    'leftFooter',
    'leftHeader',
    'rightFooter',
    'rightHeader',
  ];
  constructor(
    host: ApiHost,
    readonly sheet: Sheet,
  ) {
    super(host);
  }
}
for (const place of [
  'centerFooter',
  'centerHeader',
  'leftFooter',
  'leftHeader',
  'rightFooter',
  'rightHeader',
]) {
  Object.defineProperty(HeaderFooter.prototype, place, {
    get(this: HeaderFooter) {
      return this.sheet.page.headersFooters[place] ?? '';
    },
    set(this: HeaderFooter, text: string) {
      this.sheet.page.headersFooters[place] = text;
    },
  });
}
