// @vitest-environment node
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DecimalMark, typedNumber } from '../../../taskpane/parse/number';

/*
 * How numbers are grouped and marked: SI Brochure 9th edition, 5.4.4 (decimal marker is the point or the comma;
 * digits may be grouped in threes by a thin space); grouping by comma, point and apostrophe and the Indian
 * 12,34,567: common practice, as in the Unicode CLDR number patterns.
 */
const CLEAR: readonly (readonly [text: string, value: number, unit?: string])[] = [
  ['248', 248],
  [' 248 ', 248],
  ['12.5', 12.5],
  ['12,5', 12.5],
  ['0.123', 0.123],
  ['0,123', 0.123],
  ['.5', 0.5],
  [',5', 0.5],
  ['1 234,5 lx', 1234.5, 'lx'],
  ['1\u00a0234,5\u00a0lx', 1234.5, 'lx'],
  ['1\u202f234.5', 1234.5],
  ['1\u2009234\u2009567', 1_234_567],
  ['1 234', 1234],
  ["1'234", 1234],
  ['1\u2019234.50', 1234.5],
  ['1.234,5', 1234.5],
  ['1,234.5', 1234.5],
  ['1,234,567', 1_234_567],
  ['1.234.567', 1_234_567],
  ['12,34,567', 1_234_567],
  ['1234,567', 1234.567],
  ['1234.567', 1234.567],
  ['1.2345', 1.2345],
  ['1 234,567', 1234.567],
  ['230 fc', 230, 'fc'],
  ['230fc', 230, 'fc'],
  ['1.6 m', 1.6, 'm'],
  ['100 in', 100, 'in'],
  ['100"', 100, '"'],
  ['100\u2033', 100, '\u2033'],
  ['80 %', 80, '%'],
  ['-5', -5],
  ['\u22125', -5],
  ['+5', 5],
  ['2.1E+03', 2100],
  ['2,1e3', 2100],
  ['1.234E3', 1234],
  ['\ufeff248\u200b', 248],
  ['0', 0],
  ['0,000', 0],
];

describe('a number that can be read in one way only', () => {
  it.each(CLEAR.map(([text, value, unit = '']) => [text, value, unit] as const))(
    '%j is %d',
    (text, value, unit) => {
      expect(typedNumber(text)).toMatchObject({ kind: 'number', value, unit });
    },
  );
});

const AMBIGUOUS: readonly (readonly [text: string, point: number, comma: number])[] = [
  ['1.234', 1.234, 1234],
  ['1,234', 1234, 1.234],
  ['12.345', 12.345, 12_345],
  ['123,456', 123_456, 123.456],
  ['-1,234', -1234, -1.234],
  ['1,234 lx', 1234, 1.234],
];

describe('a number that can be read in two ways, a factor of 1000 apart', () => {
  it.each(AMBIGUOUS)('%j is asked about', (text, point, comma) => {
    expect(typedNumber(text)).toMatchObject({ kind: 'ambiguous', point, comma });
    expect(typedNumber(text, 'point')).toMatchObject({ kind: 'number', value: point });
    expect(typedNumber(text, 'comma')).toMatchObject({ kind: 'number', value: comma });
  });
});

describe('what is no number', () => {
  it.each([
    'abc',
    '1,23,4',
    '1.234.5',
    '1 23',
    '2\u20326\u2033x.5,1',
    '..5',
    '5,',
    '--5',
    '1,2345,678',
    '#N/A',
    'O.L',
  ])('%j is not guessed at', (text) => {
    const typed = typedNumber(text);
    expect(typed.kind === 'number' && typed.unit === '').toBe(false);
  });
  it.each(['', '   ', '\u00a0', '\t\n'])('%j is blank', (text) => {
    expect(typedNumber(text)).toEqual({ kind: 'blank' });
  });
});

/** Writes a number the way a locale does; V8's own ICU tables (CLDR) are the outside opinion. */
const LOCALES: readonly (readonly [locale: string, mark: DecimalMark])[] = [
  ['en-GB', 'point'],
  ['de-DE', 'comma'],
  ['fr-FR', 'comma'],
  ['de-CH', 'point'],
  ['sv-SE', 'comma'],
  ['en-IN', 'point'],
  ['pl-PL', 'comma'],
];

describe('numbers as locales write them', () => {
  it.each(LOCALES)('%s: never another value than the one written', (locale, mark) => {
    const format = new Intl.NumberFormat(locale, { maximumFractionDigits: 3 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200_000_000 }), (thousandths) => {
        const value = thousandths / 1000;
        const typed = typedNumber(format.format(value));
        if (typed.kind === 'ambiguous') expect(typed[mark]).toBe(value);
        else expect(typed).toMatchObject({ kind: 'number', value });
      }),
    );
  });
});
