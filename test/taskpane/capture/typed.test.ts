// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { readTyped } from '../../../taskpane/capture/typed';

const lit = { zero: 'missing' } as const;
const dark = { zero: 'reading' } as const;

describe('a number as it stands on the display', () => {
  it.each([
    ['412', 412],
    ['41.25', 41.25],
    ['41,25', 41.25],
    ['0,5', 0.5],
    ['1 234,5', 1234.5],
    ['1 234,5 lx', 1234.5],
    ['1234.5lux', 1234.5],
    ['2.1E+03', 2100],
  ])('%j in lx is %d', (text, value) => {
    expect(readTyped(text, lit, 'lx', 1)).toMatchObject({ kind: 'number', value });
  });

  it.each([
    ['38.3', 38.3],
    ['38,3 fc', 38.3],
    ['38.3 foot-candles', 38.3],
  ])('%j in fc is %d, and is not converted', (text, value) => {
    expect(readTyped(text, lit, 'fc', 1)).toMatchObject({ kind: 'number', value });
  });

  it('a decimal comma that can be no thousand proves itself', () => {
    expect(readTyped('41,25', lit, 'lx', 1)).toMatchObject({ proves: 'comma' });
    expect(readTyped('412', lit, 'lx', 1)).not.toHaveProperty('proves');
  });

  it('one or a thousand times as much is asked, until a mark is proved', () => {
    expect(readTyped('1,234', lit, 'lx', 1)).toEqual({
      kind: 'ask',
      text: '1,234',
      point: 1234,
      comma: 1.234,
    });
    expect(readTyped('1.234', lit, 'lx', 1)).toMatchObject({ kind: 'ask', point: 1.234, comma: 1234 });
    expect(readTyped('1,234', lit, 'lx', 1, 'comma')).toMatchObject({ kind: 'number', value: 1.234 });
    expect(readTyped('1,234', lit, 'lx', 1, 'point')).toMatchObject({ kind: 'number', value: 1234 });
  });
});

describe('what is no number', () => {
  it.each(['over', 'OVER', 'over range', 'OL', 'o.l.'])('%j is over range', (text) => {
    expect(readTyped(text, lit, 'lx', 1)).toEqual({ kind: 'over' });
  });

  it.each(['1.', '1 .', '1,'])('%j is over range as many displays show it, and is said back', (text) => {
    expect(readTyped(text, lit, 'lx', 1)).toEqual({ kind: 'over', sign: text });
    expect(readTyped(text, dark, 'lx', 1)).toEqual({ kind: 'over', sign: text });
  });

  it('nothing is nothing', () => {
    expect(readTyped('  ', lit, 'lx', 1)).toEqual({ kind: 'blank' });
  });

  it.each([
    ['bright', '“bright” is no number.'],
    ['38.3 fc', 'The readings of this sheet are in lx; fc was typed, and nothing is converted unasked.'],
    ['38 cd', '“cd” is no unit of the display. Type the number alone.'],
    ['-5', 'A reading is not negative.'],
  ])('%j is refused in words', (text, message) => {
    expect(readTyped(text, lit, 'lx', 1)).toEqual({ kind: 'refused', message });
  });

  it('0 is a reading of a dark field only', () => {
    expect(readTyped('0', dark, 'lx', 1)).toEqual({ kind: 'number', value: 0 });
    expect(readTyped('0', lit, 'lx', 1)).toMatchObject({ kind: 'refused' });
  });

  it('more than 200 000 lx is a slip; the range factor and the unit count', () => {
    // 1 fc = 10.763910416709722 lx (the foot is 0.3048 m exactly): 200 000 lx = 18 580.6 fc.
    expect(readTyped('200000', lit, 'lx', 1)).toMatchObject({ kind: 'number' });
    expect(readTyped('2001', lit, 'lx', 100)).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining('more than 200000 lx, twice full sunlight'),
    });
    expect(readTyped('18580', lit, 'fc', 1)).toMatchObject({ kind: 'number' });
    expect(readTyped('18581', lit, 'fc', 1)).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining('more than 18580 fc'),
    });
  });
});
