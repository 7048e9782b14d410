import { addressOf, type Rect, rectOf } from '../sheets/address';

/**
 * How many cells are asked for in one round trip. Excel on the web gives no answer above 5 MB (resource limits of
 * Office Add-ins), and a cell with everything a check looks at takes up to 300 bytes, as the bench counts them.
 */
const CELLS_A_TRIP = 10_000;

/** A piece of work on some rows of an area. */
export interface Part<T> {
  readonly of: T;
  readonly address: string;
}

/** Areas cut into blocks of whole rows and gathered into groups that each fit one round trip, in order. */
export function tripsOf<T>(
  areas: readonly { readonly of: T; readonly address: string }[],
  most = CELLS_A_TRIP,
): Part<T>[][] {
  const trips: Part<T>[][] = [];
  let room = 0;
  for (const { of, address } of areas) {
    const area = rectOf(address);
    for (const block of blocksOf(area, most)) {
      const size = block.rows * block.columns;
      if (size > room) {
        trips.push([]);
        room = most;
      }
      trips.at(-1)!.push({ of, address: addressOf(block) });
      room -= size;
    }
  }
  return trips;
}

function blocksOf(area: Rect, most: number): Rect[] {
  const rows = Math.max(1, Math.floor(most / area.columns));
  return Array.from({ length: Math.ceil(area.rows / rows) }, (_, i) => ({
    ...area,
    row: area.row + i * rows,
    rows: Math.min(rows, area.rows - i * rows),
  }));
}

/** A list in groups of so many. */
export function groupsOf<T>(items: readonly T[], most: number): T[][] {
  return Array.from({ length: Math.ceil(items.length / most) }, (_, i) =>
    items.slice(i * most, (i + 1) * most),
  );
}
