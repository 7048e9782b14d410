import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { putDerived } from './derived';
import { FORMAT } from './layout';
import { lightOf } from './lightof';
import { ADDED, gross, madeOf, rounding, squares } from './lines/line';
import { PRIMARY_STEMS } from './stems';

/** White's mismatch as the mixture it is: its primaries', as far as they make it up, and that of light added to them. */
export function putMixture(b: PlanBuilder, row: number): void {
  const parts = PRIMARY_STEMS.map((stem) => `${stem}MismatchUsed*${madeOf(stem)}`);
  putDerived(
    b,
    row,
    'Mismatch of white as a mixture ±',
    'WhiteMixture',
    `=IF(COUNT(WhiteLightOutputPlain,ColourLightOutputPlain)<2,WhiteMismatchUsed,SQRT(SUMSQ(${[...parts, `WhiteMismatchUsed*${ADDED}`].join(',')})))`,
    FORMAT.percent,
    'of reading',
    'red, green and blue by their shares, and what white has beyond them',
  );
}

/** Doubt (k = 2) of a mean net black as far as it bears on a contrast: where black is no larger, the contrast is a bound. */
export function putBlackDoubts(b: PlanBuilder, start: number, { black, checkerboard }: RunSetup): number {
  let row = start;
  const offset = '(MeterDigitsUsed*MeterDigit*LuxPerUnit)^2';
  const step = '(MeterDigit*LuxPerUnit/2)^2';
  const room = `(AmbientHalfUsed*${lightOf('Black')})^2/3`;
  const put = (label: string, name: string, ready: string, squared: readonly string[]) =>
    putDerived(
      b,
      row++,
      label,
      name,
      `=IF(${ready},"",2*SQRT(${squared.join('+')}))`,
      FORMAT.lux,
      'lx',
      'U, k = 2, without what cancels in a contrast',
    );
  if (black)
    put('Doubt of black', 'BlackDoubt', 'COUNT(BlackNet,AmbientHalfUsed)<10', [
      `${offset}/3*SUMSQ(DigitsBlack)`,
      `${step}/3*${rounding('Black')}/81`,
      'BlackScatter^2/9',
      `LinearityHalfUsed^2/3*${gross('Black')}^2`,
      'BlackMismatchUsed^2/3*AVERAGE(BlackNet)^2',
      `PlacingHalfUsed^2/3*${squares('Black')}/81`,
      room,
    ]);
  if (checkerboard)
    put('Doubt of black tiles', 'BoardDoubt', 'COUNT(BoardBlack,AmbientMean,AmbientHalfUsed)<3', [
      `${offset}/3*SUMSQ(DigitsBoard)`,
      `${step}/3*(BoardRange*WhiteCorrection)^2/8`,
      'BoardBlackScatter^2/8',
      'BlackMismatchUsed^2/3*(BoardBlack-AmbientMean)^2',
      `PlacingHalfUsed^2/3*(BoardBlackScatter/RepeatPartUsed)^2/8`,
      room,
    ]);
  return row;
}
