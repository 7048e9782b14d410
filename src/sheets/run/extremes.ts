import { CLEAR, CLEAR_SQUARED } from '../../metrology/linear';
import { GRID_NAMES } from '../../photometry/points';
import { cellsOf } from '../address';
import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { putDerived } from './derived';
import { FORMAT } from './layout';
import { lightOf } from './lightof';

/** A chain of IFs over the nine points in some order: the last one needs no question. */
function choose(
  order: readonly number[],
  question: (point: number) => string,
  answer: (point: number) => string,
) {
  return order.reduceRight(
    (rest, point) => (rest === '' ? answer(point) : `IF(${question(point)},${answer(point)},${rest})`),
    '',
  );
}
const FORWARD = GRID_NAMES.map((_, i) => i);
/** From the end, so that nine equal readings still give two points. */
const BACKWARD = [...FORWARD].reverse();

/**
 * Which two of the nine points make the uniformity, what of them its budget needs, and how many others might be one
 * of them but for scatter and placing. Returns the first row below.
 */
export function putExtremes(b: PlanBuilder, start: number, setup: RunSetup): number {
  let row = putExtreme(b, start, 'Darkest', 'MIN', FORWARD, setup);
  row = putExtreme(b, row, 'Brightest', 'MAX', BACKWARD, setup);
  const step = '(WhiteRange*WhiteCorrection*MeterDigit*LuxPerUnit/2)^2/3';
  const { repeats } = setup;
  const read = `(WhiteNet+AmbientLux*${lightOf('White')})`;
  const scatter = repeats > 1 ? `WhiteScatter^2/${repeats}` : `(RepeatPartUsed*${read})^2`;
  const placing = `(PlacingHalfUsed*${read})^2/3`;
  const bound = `${CLEAR_SQUARED}*(${step}+${scatter}+${placing})`;
  const near = `((WhiteNet-MIN(WhiteNet))^2<=${bound})+((MAX(WhiteNet)-WhiteNet)^2<=${bound})`;
  putDerived(
    b,
    row,
    'Others near to one of the two',
    'RivalPoints',
    complete(`MAX(0,SUMPRODUCT(1*(${near}>0))-2)`),
    '0',
    'points',
    `within ${CLEAR} times the u of a difference of two readings`,
  );
  return row + 1;
}

const complete = (formula: string) => `=IF(COUNT(WhiteNet)<9,"",${formula})`;

function putExtreme(
  b: PlanBuilder,
  start: number,
  stem: 'Darkest' | 'Brightest',
  extreme: 'MIN' | 'MAX',
  order: readonly number[],
  { ambient }: RunSetup,
): number {
  let row = start;
  const point = `${stem}Point`;
  const net = cellsOf(b.rangeOf('WhiteNet'));
  const found = choose(
    order,
    (i) => `${net[i]}=${extreme}(WhiteNet)`,
    (i) => String(i + 1),
  );
  const place = choose(
    FORWARD,
    (i) => `${point}=${i + 1}`,
    (i) => `"${GRID_NAMES[i]}"`,
  );
  putDerived(
    b,
    row++,
    `${stem} of nine`,
    point,
    complete(found),
    '0',
    'point',
    `=IF(COUNT(${point})=0,"",${place})`,
  );
  const take = (grid: string) => {
    const cells = cellsOf(b.rangeOf(grid));
    return complete(
      choose(
        FORWARD,
        (i) => `${point}=${i + 1}`,
        (i) => cells[i]!,
      ),
    );
  };
  putDerived(b, row++, '    its range factor', `${stem}Range`, take('WhiteRange'), FORMAT.general, '', '');
  if (ambient === 'nine points') {
    putDerived(b, row++, '    its ambient light', `${stem}Ambient`, take('AmbientLux'), FORMAT.lux, 'lx', '');
    const range = take('AmbientRange');
    putDerived(b, row++, '    range of that', `${stem}AmbientRange`, range, FORMAT.general, '', '');
  }
  return row;
}
