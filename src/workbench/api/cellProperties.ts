import { ApiError } from '../errors';
import type { ApiObject } from './object';
import type { RangeFormat } from './rangeFormat';

const EDGES: Readonly<Record<string, string>> = {
  top: 'EdgeTop',
  bottom: 'EdgeBottom',
  left: 'EdgeLeft',
  right: 'EdgeRight',
};

/**
 * Gives a cell the look of `Excel.SettableCellProperties`; what is left out stays as it is ("Any subproperties of format
 * that are not set will not be changed", sample in its reference).
 *
 * @throws ApiError `ApiNotAvailable` for what the workbench cannot set, `InvalidArgument` for what is no object
 */
export function setCellProperties(format: RangeFormat, given: unknown): void {
  const { format: look = {}, ...others } = properties(given);
  refuse(Object.keys(others));
  const { fill, font, protection, borders, ...own } = properties(look);
  setEach(format, own);
  for (const [part, wanted] of [
    [format.fill, fill],
    [format.font, font],
    [format.protection, protection],
  ] as const)
    if (wanted !== undefined) setEach(part, properties(wanted));
  for (const [side, line] of Object.entries(properties(borders ?? {}))) {
    const edge = EDGES[side];
    if (edge === undefined) refuse([`borders.${side}`]);
    else setEach(format.borders.getItem(edge), properties(line));
  }
}

/** A null once crashed Excel (office-js issue 593): it is no set of properties. */
function properties(given: unknown): Record<string, unknown> {
  if (typeof given !== 'object' || given === null) throw new ApiError('InvalidArgument');
  return given as Record<string, unknown>;
}

function setEach(object: ApiObject, given: Record<string, unknown>): void {
  refuse(Object.keys(given).filter((name) => !object.scalars.includes(name)));
  Object.assign(object, given);
}

function refuse(names: readonly string[]): void {
  if (names.length > 0) throw new ApiError('ApiNotAvailable', `setCellProperties: ${names.join(', ')}`);
}
