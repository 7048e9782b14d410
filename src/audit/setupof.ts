import { rectOf } from '../sheets/address';
import type { CellName } from '../sheets/names/all';
import { type ColourFields, MAX_REPEATS, type RunSetup } from '../sheets/runsetup';
import { typedSetup } from '../sheets/setup/read';
import { gridOf, type SheetView } from './view';

/**
 * The set-up a run sheet was built from, read off the sheet. What its layout depends on (colour fields,
 * ambient, black, corners, checkerboard, shape of the image) follows from the names it has, each from several,
 * so that one lost name does not make another sheet of it; the rest from its input cells as they stand.
 */
export function setupOf(view: SheetView): RunSetup {
  const has = (...names: CellName[]) => names.some((name) => view.places.has(name.toLowerCase()));
  const isFourSided = has('SideTop', 'SideBottom', 'SideLeft', 'DiagonalFalling');
  const typed = typedSetup((name) => one(view, name), isFourSided);
  const range = one(view, 'WhiteRange');
  return {
    ...typed,
    meter: { ...typed.meter, ...(typeof range === 'number' && range > 0 ? { range } : {}) },
    colour: coloursOf(has),
    ambient: ambientOf(view, has),
    black: has('BlackReadings', 'BlackRange', 'BlackNet', 'BlackRemarks'),
    checkerboard: has('BoardReadings', 'BoardRange', 'BoardTopLeft', 'BoardWhite'),
    corners: has('CornerReadings', 'CornerRange', 'CornerNet'),
    repeats: repeatsOf(view),
  };
}

function one(view: SheetView, name: CellName) {
  return gridOf(view, name)[0]?.[0] ?? null;
}

/** The highest repeat any field has; one lost name takes nothing away where others tell it too. */
function repeatsOf({ places }: SheetView): number {
  const found = [...places.keys()].flatMap((name) => /^[a-z]+repeat([2-9])$/.exec(name)?.[1] ?? []);
  return Math.min(MAX_REPEATS, Math.max(1, ...found.map(Number)));
}

type Has = (...names: CellName[]) => boolean;

function coloursOf(has: Has): ColourFields {
  if (has('PatternA', 'PatternB', 'PatternC', 'PatternARange', 'PatternBRange')) return 'tiled patterns';
  return has('RedReadings', 'RedRange', 'GreenReadings', 'BlueReadings', 'RedNet') ? 'full fields' : 'none';
}

function ambientOf({ places }: SheetView, has: Has): RunSetup['ambient'] {
  if (!has('AmbientReadings', 'AmbientRange')) return 'none';
  const sizes = ['ambientreadings', 'ambientrange', 'ambientlux'].flatMap((name) => {
    const address = places.get(name)?.address;
    return address === undefined ? [] : [rectOf(address).rows];
  });
  return sizes.filter((rows) => rows > 1).length * 2 > sizes.length ? 'nine points' : 'once';
}
