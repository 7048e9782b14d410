import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Names } from '../../src/workbench/engine/names';
import { parseAddress, parseReference, sheetPrefix } from '../../src/workbench/engine/reference';
import { tokenize } from '../../src/workbench/engine/tokens';
import { decode, encode, type SheetNames } from '../../src/workbench/engine/translate';

const SHEETS: Record<string, string> = { a: 'Run 1', b: "Anna's", c: 'Plain' };
const sheets: SheetNames = {
  idOf: (name) => Object.keys(SHEETS).find((id) => SHEETS[id]!.toLowerCase() === name.toLowerCase()),
  nameOf: (id) => SHEETS[id]!,
};
/** The same name on two sheets and in the workbook, and names that only one place has. */
function names(): Names {
  const all = new Names();
  all.add('Readings', 'a', "='Run 1'!$B$2:$D$4");
  all.add('Readings', 'b', "='Anna''s'!$B$2:$D$4");
  all.add('Readings', undefined, '=1');
  all.add('Area', 'a', "='Run 1'!$C$9");
  all.add('Site', undefined, '="x"');
  return all;
}

const piece = fc.constantFrom(
  'Readings',
  'Area',
  'Site',
  'Unknown',
  "'Run 1'!Readings",
  "'Run 1'!Area",
  "'Anna''s'!Readings",
  'Plain!B2',
  "'Run 1'!$B$2:$D$4",
  'B2',
  '$C$3:D9',
  'A:A',
  '1.5e-3',
  '"Readings ""Area"""',
  'TRUE',
  '#N/A',
  '{1,2;"Area",4}',
  'LIGHT.X(Readings,,Area)',
  'LIGHT.Y()',
  'SUM(Readings,Site)',
  'IF(LIGHT.Z(,1)>0,"",Area)',
);
const formula = fc
  .array(fc.tuple(piece, fc.constantFrom('+', '*', '&', '>=', ' - ')), { minLength: 1, maxLength: 6 })
  .map((parts) => `=${parts.map(([text, operator]) => text + operator).join('')}1`);

test('a formula comes back exactly as it was written, on every sheet', () => {
  fc.assert(
    fc.property(formula, fc.constantFrom('a', 'b', 'c'), (text, sheet) => {
      const all = names();
      const encoded = encode(text, sheet, all, sheets, () => {});
      expect(decode(encoded, sheet, all, sheets)).toBe(text);
    }),
  );
});

test('the engine never sees a name that two places share', () => {
  const all = names();
  const seen = ['a', 'b', 'c'].map((sheet) => encode('=Readings', sheet, all, sheets, () => {}));
  expect(new Set(seen).size).toBe(3);
  expect(encode('=Area', 'c', all, sheets, () => {})).toBe('=Area');
});

test('tokens join to the formula they came from', () => {
  fc.assert(
    fc.property(fc.oneof(formula, fc.string()), (text) => {
      expect(
        tokenize(text)
          .map((token) => token.text)
          .join(''),
      ).toBe(text);
    }),
  );
});

test('addresses and references', () => {
  expect(parseAddress('$b$12:D9')).toEqual({ row: 8, column: 1, rows: 4, columns: 3 });
  expect(parseAddress('B:C')).toMatchObject({ column: 1, columns: 2, rows: 1_048_576 });
  for (const wrong of ['', 'B', '12', 'B0', 'XFE1', 'A1:B', 'A1048577', 'A1:B2:C3'])
    expect(parseAddress(wrong)).toBeUndefined();
  expect(parseReference("='Anna''s'!$B$2")).toEqual({
    sheet: "Anna's",
    rect: { row: 1, column: 1, rows: 1, columns: 1 },
  });
  expect(parseReference('="text"')).toBeUndefined();
  expect(['Run', 'Run 1', 'AB12', 'R1C1', "Anna's"].map(sheetPrefix)).toEqual([
    'Run!',
    "'Run 1'!",
    "'AB12'!",
    "'R1C1'!",
    "'Anna''s'!",
  ]);
});
