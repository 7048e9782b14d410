import { expect, it } from 'vitest';
import { crossCheck } from '../../src/audit/trace/crosscheck';
import { viewOf } from '../../src/audit/view';
import { addressOf, rectOf } from '../../src/sheets/address';
import { batchPlan } from '../../src/sheets/batch';
import { bookOf } from '../../src/sheets/realize';
import { batchSetup } from '../sheets/batchcases';
import { smallest } from './sheets';

const book = smallest();
const sheet = book.sheets[0]!;
const { name } = sheet;
const at = (of: string) => viewOf(sheet).places.get(of.toLowerCase())!.address;

/* The plain formula of white light output refers to the nine net illuminances, what they were corrected by, the ambient mean, and the image area. */
const FACTOR = Object.entries(sheet.cells).find(
  ([, { value }]) => value === 'Factor for the sensor’s place',
)![0];
const AREAS = [
  ...['WhiteNet', 'AmbientMean', 'WhiteSpectral'].map(at),
  // It stands in the column that the spectral correction stands in, and has no name.
  at('WhiteSpectral').replace(/\d+/, '') + FACTOR.replace(/\D+/, ''),
  at('ImageArea'),
].map((address) => ({ sheet: name, address }));

it('agrees with a program that names the same cells, however it joins them', () => {
  const target = at('WhiteLightOutputPlain');
  expect(crossCheck(book, name, target, AREAS)).toEqual({ onlyProgram: [], onlyFormula: [] });
  const [first = '', last = ''] = at('WhiteNet').split(':');
  const rows = [first, last].map((cell) => Number(/\d+/.exec(cell)![0]));
  const [left = '', right = ''] = [first, last].map((cell) => /[A-Z]+/.exec(cell)![0]);
  const byRow = Array.from({ length: 3 }, (_, i) => ({
    sheet: name.toUpperCase(),
    address: `${left}${rows[0]! + i}:${right}${rows[0]! + i}`,
  }));
  expect(crossCheck(book, name, target, [...byRow, ...AREAS.slice(1)])).toEqual({
    onlyProgram: [],
    onlyFormula: [],
  });
});

it('tells what only one of the two names', () => {
  expect(
    crossCheck(book, name, at('WhiteLightOutputPlain'), [
      ...AREAS.slice(0, 4),
      { sheet: name, address: 'Z1' },
      { sheet: 'Elsewhere', address: 'A1' },
    ]),
  ).toEqual({ onlyProgram: ['Z1', 'elsewhere!A1'], onlyFormula: [at('ImageArea')] });
});

it('compares the readings of a large batch too', () => {
  // 800 units in four blocks of 200 with nine readings each: 1800 cells behind the first table of the function.
  const large = bookOf([batchPlan({ ...batchSetup({ lines: 800 }), lines: 800 }, 'large1')]);
  const [own] = large.sheets;
  const { places } = viewOf(own!);
  const table = places.get('functiontable')!.address.split(':')[0]!;
  const readings = places.get('readings')!.address;
  const block = addressOf({ ...rectOf(readings), rows: 200 });
  const found = crossCheck(large, own!.name, table, [{ sheet: own!.name, address: block }]);
  expect(found?.onlyProgram).toEqual([]);
  expect(found?.onlyFormula).not.toContain(readings.split(':')[0]);
});

it('has no opinion on a cell without a formula, on whole columns and on names that are nowhere', () => {
  expect(crossCheck(book, name, at('ImageLength') ?? 'A1', AREAS)).toBeUndefined();
  expect(
    crossCheck(book, name, at('WhiteLightOutputPlain'), [{ sheet: name, address: 'A:A' }]),
  ).toBeUndefined();
  const odd = { ...sheet, cells: { ...sheet.cells, Z9: { value: 1, formula: '=NoSuchName+1' } } };
  expect(crossCheck({ ...book, sheets: [odd] }, name, 'Z9', [])).toBeUndefined();
});
