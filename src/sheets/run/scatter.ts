import { REPEATABILITY } from '../../metrology/run/defaults';
import type { PlanBuilder } from '../builder';
import { putDerived } from './derived';
import { FORMAT } from './layout';
import { squares as ofReadings } from './lines/line';
import { percent } from './percent';
import type { BoardCells, BudgetStem } from './stems';

/** Where nothing is read twice. */
const ONCE = (why: string) =>
  `=IF(ISNUMBER(RepeatPart),"repeatability as entered: ${why}","assumed: ${percent(REPEATABILITY)} of each reading, ν = 8: ${why}")`;

/** Pooled standard deviation of one reading in lux (GUM 4.2), or the cautious value where no point was read twice. */
export function putScatter(
  b: PlanBuilder,
  row: number,
  stem: BudgetStem,
  points: readonly (readonly string[])[],
  repeats: number,
): void {
  const field = stem.toLowerCase();
  const squares = points.map(
    (cells, i) => `DEVSQ(${cells.join(',')})*INDEX(${stem}Range,${Math.floor(i / 3) + 1},${(i % 3) + 1})^2`,
  );
  const pooled = `SQRT((${squares.join('+')})/${9 * (repeats - 1)})*LuxPerUnit*${stem}Correction`;
  const cautious = `RepeatPartUsed*SQRT(${ofReadings(stem)}/9)`;
  putDerived(
    b,
    row,
    `Scatter of one reading, ${field}`,
    `${stem}Scatter`,
    `=IF(COUNT(${stem}Net)<9,"",${repeats > 1 ? pooled : cautious})`,
    FORMAT.lux,
    'lx',
    repeats > 1
      ? `pooled standard deviation of ${repeats} readings a point, ν = ${9 * (repeats - 1)}`
      : ONCE('no point was read twice'),
  );
}

/** The same for the tiles of the checkerboard, which are read once. */
export function putTileScatter(b: PlanBuilder, row: number, { even, odd }: BoardCells): number {
  (['White', 'Black'] as const).forEach((kind, i) => {
    const lit = kind === 'White' ? 'white' : 'black';
    putDerived(
      b,
      row + i,
      `Scatter of one reading, ${lit} tiles`,
      `Board${kind}Scatter`,
      `=IF(COUNT(BoardReadings)<16,"",RepeatPartUsed*SQRT(IF(BoardTopLeft="${lit}",SUMSQ(${even.join(',')}),SUMSQ(${odd.join(',')}))/8)*BoardRange*LuxPerUnit*WhiteCorrection)`,
      FORMAT.lux,
      'lx',
      ONCE('tiles are read once'),
    );
  });
  return row + 2;
}
