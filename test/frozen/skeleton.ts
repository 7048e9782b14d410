import { broken } from '../../src/audit/formula/normal';
import { markOfCell, markOfName } from '../../src/audit/older/known';
import { type Distances, EDGES, type Edge, rowOf } from '../../src/audit/older/places';
import type { SheetView } from '../../src/audit/view';
import { cellName, cellsOf, rectOf } from '../../src/sheets/address';

/** A frozen sheet of an earlier layout, with the marks of what it was built with. */
export interface Skeleton {
  readonly view: SheetView;
  readonly marks: ReadonlyMap<string, string>;
  /** Cells without a name. */
  readonly untold: readonly string[];
}

export function skeletonOf(view: SheetView): Skeleton {
  const { sheet } = view;
  const filled = new Set(Object.values(sheet.cells).flatMap(({ spill }) => (spill ? cellsOf(spill) : [])));
  const marks = new Map(
    Object.entries(sheet.cells).flatMap(([at, cell]) => {
      const isFixed = cell.formula !== undefined || (cell.style?.locked !== false && !filled.has(at));
      const mark =
        isFixed && !(cell.formula && broken(cell.formula)) ? markOfCell(cell, at, sheet.name) : undefined;
      return mark === undefined ? [] : [[at, mark] as const];
    }),
  );
  const named = new Set([...view.places.values()].flatMap(({ address }) => cellsOf(address)));
  return { view, marks, untold: [...marks.keys()].filter((at) => !named.has(at)) };
}

/** A name's edge that something may be measured from. */
interface Anchor {
  readonly key: string;
  readonly row: number;
  readonly column: number;
}

function anchorsOf({ places }: SheetView): Anchor[] {
  return [...places.values()].flatMap(({ name, address, isNameless }) => {
    if (isNameless) return [];
    const rect = rectOf(address);
    return EDGES.map((edge: Edge) => ({
      key: `${name}${edge}`,
      row: rowOf(rect, edge),
      column: rect.column,
    }));
  });
}

/** Rows at most between a name and what is told by one sheet alone. */
const NEAR = 3;
/** Cells at most between a name and what is told from it. */
const FAR = 60;

interface Distance {
  readonly down: number;
  readonly right: number;
  readonly marks: ReadonlySet<string>;
}

/** Marks of what stands at a distance from an edge on all sheets that have it; undefined unless each has something. */
function marksThere(
  those: readonly { readonly skeleton: Skeleton; readonly anchor: Anchor }[],
  down: number,
  right: number,
  markAt: (skeleton: Skeleton, at: string) => string | null | undefined,
): Set<string> | undefined {
  const marks = new Set<string>();
  for (const { skeleton, anchor } of those) {
    const [row, column] = [anchor.row + down, anchor.column + right];
    const mark = row < 0 || column < 0 ? undefined : markAt(skeleton, cellName(row, column));
    if (mark === undefined) return undefined;
    if (mark !== null) marks.add(mark);
  }
  return marks;
}

/**
 * For each thing the name at whose distance every sheet of the layout that has that name has such a thing, too: the
 * nearest one of those that most sheets have.
 *
 * @param things of a sheet
 * @param markAt the mark of what a cell holds; undefined where it is no such thing, null where a sheet cannot have it
 */
function distancesOf(
  skeletons: readonly Skeleton[],
  things: (skeleton: Skeleton) => readonly { readonly at: string; readonly id?: string }[],
  markAt: (skeleton: Skeleton, at: string, id: string) => string | null | undefined,
): Distances {
  const anchored = skeletons.map((skeleton) => ({ skeleton, anchors: anchorsOf(skeleton.view) }));
  const having = new Map<string, { skeleton: Skeleton; anchor: Anchor }[]>();
  for (const { skeleton, anchors } of anchored)
    for (const anchor of anchors)
      having.set(anchor.key, [...(having.get(anchor.key) ?? []), { skeleton, anchor }]);
  const asked = new Map<string, ReadonlySet<string> | undefined>();
  const found = new Map<string, Map<string, Distance>>();
  for (const { skeleton, anchors } of anchored) {
    for (const { at, id = '' } of things(skeleton)) {
      const { row, column } = rectOf(at);
      const near = anchors
        .map(({ key, ...anchor }) => ({ key, down: row - anchor.row, right: column - anchor.column }))
        .filter(({ key, down, right }) => key.slice(0, -1) !== id && Math.abs(down) + Math.abs(right) <= FAR)
        .sort((a, b) => Math.abs(a.down) + Math.abs(a.right) - Math.abs(b.down) - Math.abs(b.right));
      let best: (Distance & { readonly key: string; readonly count: number }) | undefined;
      for (const { key, down, right } of near) {
        const those = having.get(key)!;
        if (best && those.length <= best.count) continue;
        if (those.length < 2 && Math.abs(down) > NEAR) continue;
        const question = `${key} ${down} ${right} ${id}`;
        if (!asked.has(question))
          asked.set(
            question,
            marksThere(those, down, right, (each, cell) => markAt(each, cell, id)),
          );
        const marks = asked.get(question);
        if (!marks) continue;
        best = { key, down, right, marks, count: those.length };
        if (those.length === skeletons.length) break;
      }
      if (!best) continue;
      const list = found.get(best.key) ?? new Map<string, Distance>();
      found.set(best.key, list.set(`${best.down} ${best.right} ${[...best.marks].sort().join('')}`, best));
    }
  }
  return Object.fromEntries(
    [...found]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, list]) => [
        key,
        [...list.values()]
          .map(({ down, right, marks }) => [down, right, [...marks].sort().join('')] as const)
          .sort(([a, b], [c, d]) => a - c || b - d),
      ]),
  );
}

/** Where the cells without a name stand. */
export function placesOf(skeletons: readonly Skeleton[]): Distances {
  return distancesOf(
    skeletons,
    ({ untold }) => untold.map((at) => ({ at })),
    ({ marks }, at) => marks.get(at),
  );
}

/** Where names begin, as far as those of other sheets of the layout do. */
export function beginningsOf(skeletons: readonly Skeleton[]): Distances {
  return distancesOf(
    skeletons,
    ({ view }) => [...beginnings(view)].map(([id, at]) => ({ id, at })),
    ({ view }, at, id) => {
      const own = beginnings(view).get(id);
      return own === undefined ? null : own === at ? markOfName(id) : undefined;
    },
  );
}

const known = new WeakMap<SheetView, ReadonlyMap<string, string>>();

/** The first cell of each name. */
function beginnings(view: SheetView): ReadonlyMap<string, string> {
  const found =
    known.get(view) ??
    new Map(
      [...view.places.values()].flatMap(({ name, address, isNameless }) =>
        isNameless ? [] : [[name, cellsOf(address)[0]!] as const],
      ),
    );
  known.set(view, found);
  return found;
}
