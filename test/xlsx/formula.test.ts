import { describe, expect, it } from 'vitest';
import { callsOurs } from '../../src/sheets/calls';
import { moveFormula } from '../../src/sheets/move';
import { tokens } from '../../src/sheets/tokens';
import { showFormula, storeFormula } from '../../src/xlsx/formula';

/**
 * As seen ↔ as stored. Custom functions: the form in which Excel saves `=CONTOSO.ADD(1,2)` once the add-in is
 * loaded, as documented in a public reproduction of OfficeDev/office-js issue 6611 and in issues 2568, 3558.
 * Prefixes: [MS-XLSX] 2.2.3; `_xlpm.` and ANCHORARRAY: [MS-XLSX] 2.2.2.
 */
const BOTH_WAYS: readonly [string, string][] = [
  ['=SUM(A1:B2)', 'SUM(A1:B2)'],
  ['=LIGHT.OUTPUT(B2:D4,B5)', '_xldudf_LIGHT_OUTPUT(B2:D4,B5)'],
  [
    '=IF(COUNT(B2:D4)<9,"7 of 9",LIGHT.OUTPUT(B2:D4))',
    'IF(COUNT(B2:D4)<9,"7 of 9",_xldudf_LIGHT_OUTPUT(B2:D4))',
  ],
  ['=LIGHT.COLOUR.RATIO(1,2)', '_xldudf_LIGHT_COLOUR_RATIO(1,2)'],
  ['="LIGHT.OUTPUT(1)"&LIGHT.OUTPUT(1)', '"LIGHT.OUTPUT(1)"&_xldudf_LIGHT_OUTPUT(1)'],
  ['="_xlfn.T.INV.2T(""x"")"', '"_xlfn.T.INV.2T(""x"")"'],
  ["='LIGHT.OUTPUT(1)'!A1", "'LIGHT.OUTPUT(1)'!A1"],
  ['=T.INV.2T(0.05,9)*STDEV.S(A1:A9)', '_xlfn.T.INV.2T(0.05,9)*_xlfn.STDEV.S(A1:A9)'],
  ['=NORM.S.DIST(1,TRUE)+T.DIST(1,2,TRUE)', '_xlfn.NORM.S.DIST(1,TRUE)+_xlfn.T.DIST(1,2,TRUE)'],
  ['=STDEV(A1:A9)+TINV(0.05,9)', 'STDEV(A1:A9)+TINV(0.05,9)'],
  ['=SORT(FILTER(A1:A9,B1:B9>0))', '_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A1:A9,B1:B9>0))'],
  ['=LET(x,A1,y,x+1,x*y)', '_xlfn.LET(_xlpm.x,A1,_xlpm.y,_xlpm.x+1,_xlpm.x*_xlpm.y)'],
  ['=MAP(A1:A3,LAMBDA(v,v*2))', '_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v*2))'],
  ['=LET(f,LAMBDA(q,q+1),f(2))', '_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.q,_xlpm.q+1),_xlpm.f(2))'],
  ['=SUM(B2#)', 'SUM(_xlfn.ANCHORARRAY(B2))'],
  ["=SUM('Run 1'!$B$2#)", "SUM(_xlfn.ANCHORARRAY('Run 1'!$B$2))"],
  ['=IFERROR(A1,#N/A)', 'IFERROR(A1,#N/A)'],
  ['=INDEX({1,2;3,4},2,1)', 'INDEX({1,2;3,4},2,1)'],
  ['="unclosed', '"unclosed'],
];

describe('formulas as stored', () => {
  it.each(BOTH_WAYS)('%s', (seen, stored) => {
    expect(storeFormula(seen)).toBe(stored);
    expect(showFormula(stored)).toBe(seen);
  });

  it('drops the sign of implicit intersection, which a stored plain formula implies', () => {
    expect(storeFormula('=@A1:A9')).toBe('A1:A9');
  });

  it('writes our functions in capitals, as Excel looks them up', () => {
    expect(storeFormula('=light.Output(1)')).toBe('_xldudf_LIGHT_OUTPUT(1)');
  });

  it.each([
    // Broken forms from OfficeDev/office-js issues 3872 and 4811; as-entered form from issue 6611.
    ['[2]!_xldudf_LIGHT_OUTPUT(A1)', '=LIGHT.OUTPUT(A1)'],
    ["1+'C:\\add in\\x.xla'!_xldudf_LIGHT_OUTPUT(A1)", '=1+LIGHT.OUTPUT(A1)'],
    ['X.xla!_xldudf_LIGHT_OUTPUT(A1)', '=LIGHT.OUTPUT(A1)'],
    ['LIGHT.OUTPUT(A1)', '=LIGHT.OUTPUT(A1)'],
    // Another add-in's function keeps its stored name, since its spelling cannot be known.
    ['_xldudf_OTHER_THING(A1)', '=_xldudf_OTHER_THING(A1)'],
  ])('reads %s', (stored, seen) => expect(showFormula(stored)).toBe(seen));

  it('knows a call of ours from a text that mentions one', () => {
    expect(callsOurs('=1+LIGHT.OUTPUT(A1)')).toBe(true);
    expect(callsOurs('="LIGHT.OUTPUT(A1)"')).toBe(false);
  });
});

describe('shared formulas written out', () => {
  it.each([
    ['A1+$B1+C$1+$D$1', 2, 1, 'B3+$B3+D$1+$D$1'],
    ['SUM(A1:B2)*1E5+LOG10(A1)', 1, 0, 'SUM(A2:B3)*1E5+LOG10(A2)'],
    ['SUM(B:D)+SUM($B:D)', 5, 2, 'SUM(D:F)+SUM($B:F)'],
    ['SUM(2:3)+SUM($2:3)', 5, 2, 'SUM(7:8)+SUM($2:8)'],
    ['\'A1\'!A1&"A1"', 1, 1, '\'A1\'!B2&"A1"'],
    ['Rated1+Total.A1+A1', 1, 0, 'Rated1+Total.A1+A2'],
    ['A1', -1, 0, 'A1048576'],
  ])('%s by %i rows and %i columns', (stored, rows, columns, moved) => {
    expect(moveFormula(stored, rows, columns)).toBe(moved);
  });
});

it('tokens join to the formula they came from', () => {
  for (const formula of [
    ...BOTH_WAYS.flat(),
    '=#REF!+Table1[[#All],[a]]&[1]Sheet!A1',
    '"\n😀\t',
    "'",
    '#',
    '',
  ]) {
    expect(
      tokens(formula)
        .map(({ text }) => text)
        .join(''),
    ).toBe(formula);
  }
});
