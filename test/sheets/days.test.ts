import { dateFromSerial } from 'numfmt';
import { expect, it } from 'vitest';
import { dayNumber, isoDay } from '../../src/sheets/days';

const two = (n: number) => String(n).padStart(2, '0');

// The numfmt library counts days as Excel does (ECMA-376-1, 18.17.4.1), 29 February 1900 included.
it.each([61, 25_569, 36_526, 45_351, 46_351, 73_050, 2_958_465])(
  'day %i is the same day both ways',
  (day) => {
    const [year = 0, month = 0, date = 0] = dateFromSerial(day) as unknown as number[];
    const iso = `${year}-${two(month)}-${two(date)}`;
    expect(isoDay(day)).toBe(iso);
    expect(isoDay(day + 0.75)).toBe(iso);
    expect(dayNumber(iso)).toBe(day);
  },
);

it.each([0, -3, 2_958_466, 1e12, Number.NaN, '2026-11-25', null])('%s is no day', (day) => {
  expect(isoDay(day)).toBe('');
});
