import { ApiError } from '../errors';
import type { RangeFormat } from './rangeFormat';

/** `SettableCellProperties`, `SettableColumnProperties` and `SettableRowProperties` of the API, as sent. */
export interface LookProperties {
  readonly format?: FormatProperties;
  readonly columnWidth?: number;
  readonly rowHeight?: number;
}
interface FormatProperties {
  readonly fill?: Record<string, unknown>;
  readonly font?: Record<string, unknown>;
  readonly protection?: Record<string, unknown>;
  readonly borders?: Record<string, Record<string, unknown> | undefined>;
  readonly [property: string]: unknown;
}

const EDGES: Readonly<Record<string, string>> = {
  top: 'EdgeTop',
  bottom: 'EdgeBottom',
  left: 'EdgeLeft',
  right: 'EdgeRight',
  horizontal: 'InsideHorizontal',
  vertical: 'InsideVertical',
};

/** Gives a range, by its format, the looks of such an object. A property that is not there is refused by name. */
export function applyLook(format: RangeFormat, look: LookProperties | null): void {
  if (!look) return;
  const { fill, font, protection, borders, ...plain } = look.format ?? {};
  assign(format, plain);
  assign(format.fill, fill);
  assign(format.font, font);
  assign(format.protection, protection);
  if (look.columnWidth !== undefined) format.columnWidth = look.columnWidth;
  if (look.rowHeight !== undefined) format.rowHeight = look.rowHeight;
  for (const [side, line] of Object.entries(borders ?? {})) {
    const edge = EDGES[side];
    if (!edge) throw new ApiError('ApiNotAvailable', `The workbench does not have the border ${side}.`);
    assign(format.borders.getItem(edge), line);
  }
}

function assign(target: object, values: Record<string, unknown> | undefined): void {
  for (const [name, value] of Object.entries(values ?? {})) {
    if (value === undefined || value === null) continue;
    if (!hasSetter(target, name))
      throw new ApiError('ApiNotAvailable', `The workbench cannot set ${name} here.`);
    (target as Record<string, unknown>)[name] = value;
  }
}
function hasSetter(target: object, name: string): boolean {
  for (let type = Object.getPrototypeOf(target); type; type = Object.getPrototypeOf(type))
    if (Object.getOwnPropertyDescriptor(type, name)?.set) return true;
  return false;
}
