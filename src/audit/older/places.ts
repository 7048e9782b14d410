import { cellName, type Rect, rectOf } from '../../sheets/address';
import type { SheetView } from '../view';

/*
 * Where things of an earlier layout stand that today's plan does not tell: at a distance from a name that is the same
 * on every frozen sheet of the layout that has the name.
 */

/** The edge of a name's cells that a distance counts from: the first row, or the last where a list grows above. */
export const EDGES = ['^', '_'] as const;
export type Edge = (typeof EDGES)[number];

/** By name and edge, `WhiteReadings^`: rows and columns away from it, and what stands there, as marks. */
export type Distances = Readonly<
  Record<string, readonly (readonly [down: number, right: number, marks: string])[]>
>;

/** A cell that a layout fills, and marks of what it may hold. */
export interface FilledPlace {
  readonly at: string;
  readonly marks: ReadonlySet<string>;
}

const CHARACTERS = 4;

/** The cells of a sheet that its layout fills, as far as its names tell. */
export function filledPlaces({ places }: SheetView, distances: Distances): FilledPlace[] {
  return Object.entries(distances).flatMap(([key, list]) => {
    const edge = key.at(-1) as Edge;
    const place = places.get(key.slice(0, -1).toLowerCase());
    if (!place || place.isNameless) return [];
    const from = rectOf(place.address);
    return list.flatMap(([down, right, marks]): FilledPlace[] => {
      const [row, column] = [rowOf(from, edge) + down, from.column + right];
      if (row < 0 || column < 0) return [];
      return [
        {
          at: cellName(row, column),
          marks: new Set(marks.match(new RegExp(`.{${CHARACTERS}}`, 'g'))),
        },
      ];
    });
  });
}

export function rowOf({ row, rows }: Rect, edge: Edge): number {
  return edge === '^' ? row : row + rows - 1;
}
