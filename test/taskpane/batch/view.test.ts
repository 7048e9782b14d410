// @vitest-environment node
import { expect, it } from 'vitest';
import type { CellsByName } from '../../../src/excel/host';
import { SAYS } from '../../../src/procurement/batch/columns';
import { batchView } from '../../../taskpane/batch/view';

/** Three units of a batch with one ambient reading for all. */
function cells(states: readonly string[]): CellsByName {
  const column = (address: string, values: readonly unknown[]) => ({
    address,
    values: values.map((value) => [value]),
  });
  return {
    Serials: column('A8:A10', ['K-1', 'K-2', 'K-3']),
    UnitState: column('M8:M10', states),
    AmbientReadings: column('AM29', [null]),
    AmbientRange: column('AM30', [1]),
  } as unknown as CellsByName;
}

it('an ambient reading that all units wait for is one thing to do, with its cell', () => {
  const view = batchView('Batch', cells([SAYS.noAmbient, SAYS.noAmbient, 'over range']));
  expect(view.waiting).toEqual({ count: 2, cell: 'AM29' });
  expect(view.odd.map(({ serial }) => serial)).toEqual(['K-3']);
  expect(batchView('Batch', cells(['complete', 'complete', '3 of 9'])).waiting).toBeUndefined();
});
