import type { ApiHost } from './object';
import type { Range } from './range';
import { Several } from './several';

/** `worksheet.getRanges("A1:B2,D4")`: what a range can do, done to each area. */
export class RangeAreas extends Several {
  override readonly typeName = 'RangeAreas';
  override readonly scalars = ['address', 'areaCount', 'cellCount'];
  constructor(
    host: ApiHost,
    readonly ranges: readonly Range[],
  ) {
    super(host, ranges);
  }
  get address() {
    return this.ranges.map((range) => range.address).join(',');
  }
  get areaCount() {
    return this.ranges.length;
  }
  get cellCount() {
    return this.ranges.reduce((count, range) => count + range.cellCount, 0);
  }
  get worksheet() {
    return this.ranges[0]!.worksheet;
  }
}
