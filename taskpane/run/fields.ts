import type { NamedValues, SheetReading } from '../../src/excel/host';
import { CHECKER, CORNERS, type GridShape, NINE, SINGLE } from '../../src/photometry/reading';
import { MAX_REPEATS } from '../../src/sheets/runsetup';
import type { BlockTarget } from '../parse/target';

/** A grid of a run sheet that a person fills in. */
export interface RunField extends BlockTarget {
  /** White and colour count for the light output; the others for what else was asked for. */
  readonly isMain: boolean;
  /** Which time the same points are read: 1 for the first. */
  readonly repeat: number;
}

type First = Omit<RunField, 'repeat'>;

/** All that a run can have, in the order of measuring. */
const ALL: readonly First[] = [
  { name: 'AmbientReadings', label: 'ambient', shape: NINE, zero: 'reading', isMain: false },
  { name: 'WhiteReadings', label: 'white', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternA', label: 'pattern A', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternB', label: 'pattern B', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternC', label: 'pattern C', shape: NINE, zero: 'missing', isMain: true },
  { name: 'RedReadings', label: 'red', shape: NINE, zero: 'missing', isMain: true },
  { name: 'GreenReadings', label: 'green', shape: NINE, zero: 'missing', isMain: true },
  { name: 'BlueReadings', label: 'blue', shape: NINE, zero: 'missing', isMain: true },
  { name: 'BlackReadings', label: 'black', shape: NINE, zero: 'reading', isMain: false },
  { name: 'CornerReadings', label: 'corner', shape: CORNERS, zero: 'missing', isMain: false },
  { name: 'BoardReadings', label: 'checkerboard', shape: CHECKER, zero: 'reading', isMain: false },
  { name: 'LastReading', label: 'last white', shape: SINGLE, zero: 'missing', isMain: false },
];

const SORTED = ['RedReadings', 'GreenReadings', 'BlueReadings'];

/**
 * The fields that this run sheet has, each followed by its repeats. Where colour was taken by patterns, red, green
 * and blue are sorted from them.
 */
export function fieldsOf({ values }: SheetReading): RunField[] {
  const isTiled = [values.PatternA, values.PatternB, values.PatternC].some(Boolean);
  return ALL.filter(({ name }) => values[name] && !(isTiled && SORTED.includes(name))).flatMap((field) => {
    const shape = shapeFor(field.shape, values[field.name]!);
    return [{ ...field, shape, repeat: 1 }, ...repeatsOf(field, values)];
  });
}

/** A grid whose name the sheet has lost: its cells may be there, but nobody finds them. */
export type LostField = Pick<RunField, 'name' | 'label' | 'shape' | 'isMain'>;

/**
 * White, which every run has, and fields of which other names tell that they were there. A grid that was never
 * there has none of them.
 */
export function lostFields({ values }: SheetReading): LostField[] {
  return ALL.filter(({ name }) => {
    if (values[name] || name === 'AmbientReadings') return false;
    if (name === 'WhiteReadings') return true;
    const stem = name.replace(/Readings?$/, '');
    return ['Range', 'Net', 'Remarks'].some((part) => values[`${stem}${part}`]);
  });
}

/** Further grids of the same points: `WhiteRepeat2` to `WhiteRepeat5`, `PatternARepeat2` … */
function repeatsOf(field: First, values: SheetReading['values']): RunField[] {
  const stem = field.name.replace(/Readings$/, '');
  return Array.from({ length: MAX_REPEATS - 1 }, (_, k) => k + 2).flatMap((repeat) => {
    const name = `${stem}Repeat${repeat}`;
    return values[name] ? [{ ...field, name, label: `${field.label} repeat ${repeat}`, repeat }] : [];
  });
}

/** Ambient light is measured once or at nine points: the sheet's own cells tell. */
function shapeFor(shape: GridShape, { values }: NamedValues): GridShape {
  const isSingle = values.length === 1 && values[0]?.length === 1;
  return isSingle && shape === NINE ? { ...SINGLE, names: ['any place'], word: 'reading', first: 1 } : shape;
}

/** First readings of white and the colours, where a block of all of them can be pasted at once. */
export function mainFields(fields: readonly RunField[]): RunField[] {
  return fields.filter(({ isMain, repeat }) => isMain && repeat === 1);
}
