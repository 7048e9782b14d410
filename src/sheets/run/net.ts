import { cellsOf } from '../address';
import { type PlanBuilder, shift } from '../builder';
import { FORMAT } from './layout';
import { lightOf } from './lightof';
import type { GridSpec, IsReading } from './readings';

/** The fields a run can have, by the stem of their names: `WhiteReadings`, `WhiteRange`, `WhiteNet`. */
export type Stem = 'White' | 'Red' | 'Green' | 'Blue' | 'Black';

export interface FieldContext {
  readonly range: number;
  readonly repeats: number;
  readonly ambient: 'none' | 'once' | 'nine points';
  /** First cell of the ambient illuminances. */
  readonly ambientAt: string;
}

/** Ambient cell that belongs to a reading: one for all, or the one at the same place. */
export type AmbientAt = (index: number) => string;

/** Ambient of grid point i as an absolute cell. */
export function ambientOf({ ambient, ambientAt }: FieldContext): AmbientAt {
  if (ambient !== 'nine points') return () => 'AmbientLux';
  return (i) => shift(ambientAt, Math.floor(i / 3), i % 3);
}

/** Ambient of the centre. */
export const ambientAtCentre = (mode: FieldContext['ambient']) =>
  mode === 'nine points' ? 'INDEX(AmbientLux,2,2)' : 'AmbientLux';

/** Cells of one grid, each in the order of its points. */
export interface GridCells {
  readonly readings: string;
  readonly ranges: string;
  readonly net: string;
}

/**
 * Net illuminances: empty until the reading, its range factor and its ambient are all there. The meter shows the light of
 * projector and room together; what corrects the projector's light bears on what is left when the room's is taken off.
 */
export function putNet(
  b: PlanBuilder,
  { readings, ranges, net }: GridCells,
  stem: Stem | 'Corner',
  ambient: AmbientAt,
  isReading: IsReading,
): void {
  const [shown, factors] = [cellsOf(readings), cellsOf(ranges)];
  cellsOf(net).forEach((at, i) => {
    const [reading, range] = [shown[i]!, factors[i]!];
    const formula = `=IF(${isReading(reading)}*COUNTIF(${range},">0")*COUNT(${ambient(i)})=0,"",(${reading}*${range}*LuxPerUnit*CalibrationFactor-${ambient(i)})*${lightOf(stem)})`;
    b.put(at, { role: 'derived', formula, format: FORMAT.lux });
  });
  b.scale({ range: net, low: '#C9D6E8', middle: '#F4F1E6', high: '#F2C879' });
}

/** What is typed has names; what is sorted out of patterns follows from them. */
export function nameGrid(
  b: PlanBuilder,
  { stem, title }: Pick<GridSpec, 'stem' | 'title'>,
  { readings, ranges, net }: GridCells,
  isSorted = false,
): void {
  const put = (name: string, range: string, words: string) =>
    isSorted ? b.innerName(name, range, words) : b.name(name, range, words);
  put(`${stem}Readings`, readings, `${title}: numbers on the display`);
  put(`${stem}Range`, ranges, `${title}: range factors`);
  b.innerName(`${stem}Net`, net, `${title}: net illuminances, lx`);
}
