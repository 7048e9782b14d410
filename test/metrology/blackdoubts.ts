import { layoutOf } from '../../src/metrology/run/components';
import type { RunInput } from '../../src/metrology/run/input';
import { doubtOf } from '../../src/metrology/run/model';
import { meanNet } from '../../src/metrology/run/sensitivities';

/**
 * Doubt (U with k = 2, lx) of the mean net black of the black field and of the board, as far as it bears on a contrast;
 * what lacks is left out.
 */
export function blackDoubts(input: RunInput): { readonly contrast?: number; readonly board?: number } {
  const layout = layoutOf(input);
  const black = layout.fields.find(({ field: { name } }) => name === 'black');
  return {
    ...(black ? { contrast: doubtOf(layout, meanNet(layout, black)) } : {}),
    ...(layout.board ? { board: doubtOf(layout, meanNet(layout, layout.board.black)) } : {}),
  };
}
