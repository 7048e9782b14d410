import { expect, it } from 'vitest';
import { cellsOf } from '../../src/sheets/address';
import { callsOurs } from '../../src/sheets/calls';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { EXAMPLES } from '../audit/examples';
import { SETUPS } from './setups';

/*
 * "Array formulas in merged cells are not valid" (Excel's own words), and a custom function is entered as one that may
 * give an array. Common practice: what functions fill stands in cells of its own.
 */
const BOOKS = {
  ...EXAMPLES,
  ...Object.fromEntries(
    Object.entries(SETUPS).map(([name, setup]) => [`run, ${name}`, () => bookOf([runPlan(setup, 'r1')])]),
  ),
};

it.each(Object.entries(BOOKS))('no custom function stands in merged cells: %s', (_, make) => {
  for (const { cells, merges } of make().sheets) {
    const merged = new Set(merges.flatMap(cellsOf));
    const found = Object.entries(cells).filter(
      ([at, { formula }]) => formula && callsOurs(formula) && merged.has(at),
    );
    expect(found).toEqual([]);
  }
});
