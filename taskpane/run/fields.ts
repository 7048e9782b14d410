import type { NamedValues, SheetReading } from '../../src/excel/host';
import { CHECKER, CORNERS, type GridShape, NINE, SINGLE } from '../../src/photometry/reading';
import { REPEATS } from '../../src/sheets/names/shared';
import type { BlockTarget } from '../parse/target';

/** What the names of a grid, its range factors and what follows from it begin with. */
type Stem =
  | 'Ambient'
  | 'White'
  | 'PatternA'
  | 'PatternB'
  | 'PatternC'
  | 'Red'
  | 'Green'
  | 'Blue'
  | 'Black'
  | 'Corner'
  | 'Board'
  | 'Last';

/** A grid of a run sheet that a person fills in. */
export interface RunField extends BlockTarget {
  readonly stem: Stem;
  /** White and colour count for the light output; the others for what else was asked for. */
  readonly isMain: boolean;
  /** Which time the same points are read: 1 for the first. */
  readonly repeat: number;
}

type First = Omit<RunField, 'repeat'>;

/** All that a run can have, in the order of measuring. */
const ALL: readonly First[] = [
  { name: 'AmbientReadings', stem: 'Ambient', label: 'ambient', shape: NINE, zero: 'reading', isMain: false },
  { name: 'WhiteReadings', stem: 'White', label: 'white', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternA', stem: 'PatternA', label: 'pattern A', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternB', stem: 'PatternB', label: 'pattern B', shape: NINE, zero: 'missing', isMain: true },
  { name: 'PatternC', stem: 'PatternC', label: 'pattern C', shape: NINE, zero: 'missing', isMain: true },
  { name: 'RedReadings', stem: 'Red', label: 'red', shape: NINE, zero: 'missing', isMain: true },
  { name: 'GreenReadings', stem: 'Green', label: 'green', shape: NINE, zero: 'missing', isMain: true },
  { name: 'BlueReadings', stem: 'Blue', label: 'blue', shape: NINE, zero: 'missing', isMain: true },
  { name: 'BlackReadings', stem: 'Black', label: 'black', shape: NINE, zero: 'reading', isMain: false },
  { name: 'CornerReadings', stem: 'Corner', label: 'corner', shape: CORNERS, zero: 'missing', isMain: false },
  {
    name: 'BoardReadings',
    stem: 'Board',
    label: 'checkerboard',
    shape: CHECKER,
    zero: 'reading',
    isMain: false,
  },
  { name: 'LastReading', stem: 'Last', label: 'last white', shape: SINGLE, zero: 'missing', isMain: false },
];

const SORTED: readonly Stem[] = ['Red', 'Green', 'Blue'];
/** Grids that can be read several times. */
const REPEATED = ['White', 'Red', 'Green', 'Blue', 'PatternA', 'PatternB', 'PatternC'] as const;

/**
 * The fields that this run sheet has, each followed by its repeats. Where colour was taken by patterns, red, green
 * and blue are sorted from them.
 */
export function fieldsOf({ values }: SheetReading): RunField[] {
  const isTiled = [values.PatternA, values.PatternB, values.PatternC].some(Boolean);
  return ALL.filter(({ name, stem }) => values[name] && !(isTiled && SORTED.includes(stem))).flatMap(
    (field) => {
      const shape = shapeFor(field.shape, values[field.name]!);
      return [{ ...field, shape, repeat: 1 }, ...repeatsOf(field, values)];
    },
  );
}

/** A grid whose name the sheet has lost: its cells may be there, but nobody finds them. */
export type LostField = Pick<RunField, 'name' | 'label' | 'shape' | 'isMain'>;

/**
 * White, which every run has, and fields of which other names tell that they were there. A grid that was never
 * there has none of them.
 */
export function lostFields({ values }: SheetReading): LostField[] {
  const others: Readonly<Record<string, unknown>> = values;
  return ALL.filter(({ name, stem }) => {
    if (values[name] || name === 'AmbientReadings') return false;
    if (name === 'WhiteReadings') return true;
    return ['Range', 'Net', 'Remarks'].some((part) => others[`${stem}${part}`]);
  });
}

/** Further grids of the same points: `WhiteRepeat2` to `WhiteRepeat5`, `PatternARepeat2` … */
function repeatsOf(field: First, values: SheetReading['values']): RunField[] {
  const stem = REPEATED.find((each) => each === field.stem);
  if (!stem) return [];
  return REPEATS.flatMap((end, k) => {
    const [name, repeat] = [`${stem}${end}` as const, k + 2];
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
