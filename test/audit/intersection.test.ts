import { expect, it } from 'vitest';
import { isSameFormula } from '../../src/audit/formula/normal';
import { parse } from '../../src/audit/formula/parse';
import { withIntersection } from '../../src/sheets/intersection';

/*
 * "Generally, functions that return multi-cell ranges or arrays will be prefixed with @ if they were authored in an
 * older version of Excel. […] A common exception is if they are wrapped in a function that accepts an array or range":
 * "Implicit intersection operator: @", Microsoft support. =@INDEX(A1:A10,B1) is its example.
 */
it.each([
  ['=INDEX(A1:A10,B1)', '=@INDEX(A1:A10,B1)'],
  ['=SUM(INDEX(A1:A10,B1))', '=SUM(INDEX(A1:A10,B1))'],
  ['=2*INDEX(Range,1,2)^2', '=2*@INDEX(Range,1,2)^2'],
  ['=IF(COUNTIF(B81:B81,">0")=0,"",B81:B81*F81)', '=IF(COUNTIF(B81:B81,">0")=0,"",@B81:B81*F81)'],
  ['=TRIM(INDEX(\'A "b"\'!A1:A9,MATCH(C1,D1:D9,0)))', '=TRIM(@INDEX(\'A "b"\'!A1:A9,MATCH(C1,D1:D9,0)))'],
])('%s as a plain file has it is %s in Excel, and the same formula', (stored, shown) => {
  expect(withIntersection(stored)).toBe(shown);
  expect(withIntersection(shown)).toBe(shown);
  expect(isSameFormula(stored, shown, 'Run 1')).toBe(true);
  expect(parse(shown)).toEqual(parse(stored));
});

it('a block of one cell is the cell', () => {
  expect(isSameFormula('=@B81:B81+C2', '=B81+C2', 'Run 1')).toBe(true);
  expect(parse('=@$B$81:$B$81')).toEqual({ kind: 'range', address: 'B81' });
});

it('one cell out of a block of several is another formula', () => {
  for (const changed of ['=SUM(@B2:B9)', "=SUM(@'Run 2'!B2:B9)", '=SUM(@B:B)']) {
    expect(isSameFormula(changed, changed.replace('@', ''), 'Run 1')).toBe(false);
    expect(parse(changed)).toBeUndefined();
  }
});
