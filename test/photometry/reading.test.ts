import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isOverRange } from '../../src/photometry/overrange';
import { inspect } from '../../src/photometry/plausibility';
import {
  ABSURD_LUX,
  CHECKER,
  CORNERS,
  displayNumbers,
  NINE,
  netIlluminances,
  SINGLE,
} from '../../src/photometry/reading';
import { LUX } from '../../src/photometry/units';
import { AS_READ } from './asread';
import { goodOf, problemsOf } from './outcome';

const full = () => [
  [812, 905, 820],
  [890, 1000, 896],
  [805, 902, 815],
];
const net = (display: readonly number[], conversion: Partial<typeof AS_READ> = {}) =>
  netIlluminances(display, NINE, 'white', { ...AS_READ, ...conversion });

describe('a meter reading', () => {
  it.each([
    // Common practice: the display is not the illuminance until the range factor is applied.
    { display: 248, range: 10, unit: 'lx', correction: 1, lux: 2480 },
    { display: 248, range: 1, unit: 'lx', correction: 1, lux: 248 },
    // Footcandle: NIST SP 811, appendix B.8.
    { display: 23.04, range: 10, unit: 'fc', correction: 1, lux: 230.4 / 0.09290304 },
    { display: 500, range: 1, unit: 'lx', correction: 1.0387, lux: 519.35 },
  ] as const)('$display × $range in $unit, correction $correction: $lux lx', (row) => {
    const { display, lux, ...rest } = row;
    const [value] = goodOf(netIlluminances([display], SINGLE, 'white', { ...rest, ambient: 0 }));
    expect(value! / lux).toBeCloseTo(1, 12);
  });

  // Common practice: the word, overload (its O drawn as 0), and the lone 1 with the point behind it.
  it.each([
    ...['over', 'OVER', 'over range', 'over-range', 'overrange', 'ol', 'O.L.', 'OL.', 'or', ' over '],
    ...['0L', '0.L', '1.', '1 .', ' 1. ', '1,'],
  ])('"%s" is over range', (text) => expect(isOverRange(text)).toBe(true));
  it.each(['', 'off', 'open', 'overall', 'o l', '1', '1.0', '11.', '.', 'o', 'l', 1, null, true])(
    '%j is not over range',
    (cell) => expect(isOverRange(cell)).toBe(false),
  );

  it.each([
    [null, 'missing', 'The white reading at top left (point 1) is missing.'],
    [undefined, 'missing', 'The white reading at top left (point 1) is missing.'],
    ['', 'missing', 'The white reading at top left (point 1) is missing.'],
    ['  ', 'missing', 'The white reading at top left (point 1) is missing.'],
    [
      0,
      'missing',
      'The white reading at top left (point 1) is missing: the cell is empty or 0, and 0 cannot be a reading here.',
    ],
    [
      'over',
      'over-range',
      'The white reading at top left (point 1) is over range: choose a higher range on the meter and read again.',
    ],
    [
      'dim',
      'not-a-number',
      'The white reading at top left (point 1) must be the number on the display; it is "dim".',
    ],
    [
      '248',
      'not-a-number',
      'The white reading at top left (point 1) must be the number on the display; it is "248".',
    ],
    [
      true,
      'not-a-number',
      'The white reading at top left (point 1) must be the number on the display; it is "true".',
    ],
    [
      Number.NaN,
      'not-a-number',
      'The white reading at top left (point 1) must be the number on the display; it is "NaN".',
    ],
    [
      { error: '#DIV/0!' },
      'error-cell',
      'The white reading at top left (point 1) must be the number on the display; the cell holds the error #DIV/0!.',
    ],
    [-1, 'negative', 'The white reading at top left (point 1) must not be negative; it is -1.'],
    [
      Number.POSITIVE_INFINITY,
      'too-large',
      'The white reading at top left (point 1) must be a finite number.',
    ],
  ] as const)('%j in a grid: %s', (cell, code, message) => {
    const cells: unknown[][] = full();
    cells[0]![0] = cell;
    expect(problemsOf(displayNumbers(cells as never, NINE, 'white'))).toEqual([
      {
        kind: code === 'missing' ? 'missing' : 'invalid',
        code,
        where: 'white reading at top left (point 1)',
        message,
      },
    ]);
  });

  it('0 is a reading where black or ambient light is measured', () => {
    expect(goodOf(displayNumbers([[0]], SINGLE, 'black', 'reading'))).toEqual([0]);
    const [below] = problemsOf(displayNumbers([[-1]], SINGLE, 'black', 'reading'));
    expect(below).toMatchObject({ code: 'negative', where: 'black reading at centre (point 5)' });
  });

  it('reports every bad cell at once, in the order of the screen', () => {
    const cells = [
      [812, null, 820],
      [890, 1000, 'over'],
      [-5, 902, 815],
    ];
    expect(problemsOf(displayNumbers(cells, NINE, 'red')).map(({ where }) => where)).toEqual([
      'red reading at top centre (point 2)',
      'red reading at middle right (point 6)',
      'red reading at bottom left (point 7)',
    ]);
  });

  it.each([
    [NINE, 3, 4, 'The white readings must be a grid of 3 × 3 cells; it is 3 × 4.'],
    [NINE, 4, 3, 'The white readings must be a grid of 3 × 3 cells; it is 4 × 3.'],
    [NINE, 1, 9, 'The white readings must be a grid of 3 × 3 cells; it is 1 × 9.'],
    [NINE, 9, 1, 'The white readings must be a grid of 3 × 3 cells; it is 9 × 1.'],
    [CORNERS, 3, 3, 'The white readings must be a grid of 2 × 2 cells; it is 3 × 3.'],
    [CHECKER, 4, 3, 'The white readings must be a grid of 4 × 4 cells; it is 4 × 3.'],
  ] as const)('a wrong shape names both shapes', (shape, rows, columns, message) => {
    const cells = Array.from({ length: rows }, () => Array.from({ length: columns }, () => 5));
    expect(problemsOf(displayNumbers(cells, shape, 'white'))).toMatchObject([
      { code: 'shape', where: 'white readings', message },
    ]);
  });

  it('one row that is too long is a wrong shape as well', () => {
    const [top, middle, bottom] = full() as [number[], number[], number[]];
    expect(problemsOf(displayNumbers([top, [...middle, 5], bottom], NINE, 'white'))[0]!.message).toBe(
      'The white readings must be a grid of 3 × 3 cells; it is 3 × 4.',
    );
  });

  it('refuses an absurd illuminance and asks for range factor and unit', () => {
    const display = full().flat();
    expect(problemsOf(net([...display.slice(0, 8), 2001], { range: 100 }))).toMatchObject([
      {
        code: 'too-large',
        where: 'white reading at bottom right (point 9)',
        message:
          'The white reading at bottom right (point 9) gives 200100 lx; more than 200000 lx is refused. Check range factor and unit.',
      },
    ]);
    expect(net([...display.slice(0, 8), ABSURD_LUX])).toMatchObject({ ok: true });
  });

  it('names the point where ambient exceeds the reading', () => {
    expect(problemsOf(net(full().flat(), { ambient: 810 }))).toMatchObject([
      {
        code: 'ambient-exceeds',
        where: 'white reading at bottom left (point 7)',
        message: 'Ambient exceeds the reading at point 7 (bottom left, white): 805 lx read, 810 lx ambient.',
      },
    ]);
  });

  it('of just the ambient light is 0 lx, and the largest one can still be less than its ambient', () => {
    expect(goodOf(net([5], { ambient: 5 }))).toEqual([0]);
    const [problem] = problemsOf(net([ABSURD_LUX], { ambient: ABSURD_LUX + 1 }));
    expect(problem!.code).toBe('ambient-exceeds');
  });

  it('takes ambient and range factor point by point', () => {
    const ranges = [1, 10, 1, 1, 1, 1, 1, 1, 1];
    const ambient = [0, 5, 0, 0, 0, 0, 0, 0, 12];
    const display = [812, 90.5, 820, 890, 1000, 896, 805, 902, 815];
    expect(goodOf(net(display, { range: ranges as never, ambient: ambient as never }))).toEqual([
      812, 900, 820, 890, 1000, 896, 805, 902, 803,
    ]);
  });
});

describe('odd readings are questioned, never changed (common practice)', () => {
  const look = (display: readonly number[], ranges: readonly number[] = display.map(() => 1), digit = 1) =>
    inspect({ display, ranges, digit, shape: NINE, label: 'white' });
  const even = Array.from({ length: 9 }, () => 800);
  const withFirst = (value: number) => [value, ...even.slice(1)];

  it.each([
    // More than 3 × or less than one third of the median.
    { first: 2400, kinds: [] },
    { first: 2401, kinds: ['outlier'] },
    { first: 267, kinds: [] },
    { first: 266, kinds: ['outlier'] },
    // Fewer than three significant digits, and then an outlier as well.
    { first: 80, kinds: ['outlier', 'few-digits'] },
  ])('$first among readings of 800: $kinds', ({ first, kinds }) => {
    expect(look(withFirst(first)).map(({ kind }) => kind)).toEqual(kinds);
  });

  it('a forgotten range factor shows as an outlier', () => {
    const [finding] = look(withFirst(80), [1, ...even.slice(1).map(() => 1)], 0.1);
    expect(finding!.message).toBe(
      "The white reading at top left (point 1) is 80 × 1; the grid's median is 800. Is the range factor right?",
    );
  });

  // A spreadsheet makes the number 1 of a "1." typed into a cell.
  it.each([
    { among: 800, ones: 1, kinds: ['lone-one'] },
    { among: 12, ones: 1, kinds: ['lone-one'] },
    { among: 800, ones: 6, kinds: Array(6).fill('lone-one') },
    { among: 3, ones: 1, kinds: [] },
    { among: 1, ones: 9, kinds: [] },
  ])('$ones times 1 among readings of $among: $kinds', ({ among, ones, kinds }) => {
    const display = even.map((_, i) => (i < ones ? 1 : among));
    expect(look(display, undefined, 0.01).map(({ kind }) => kind)).toEqual(kinds);
  });

  it('a lone 1 is asked about as the sign that it may be', () => {
    expect(look(withFirst(1), undefined, 0.1)[0]!.message).toBe(
      'The white reading at top left (point 1) is 1. The others are about 800, and on many meters a lone 1 means over range: then type over, choose a higher range and read again.',
    );
  });

  it('readings from different ranges are said once', () => {
    const findings = look([80.1, ...even.slice(1)], [10, ...even.slice(1).map(() => 1)], 0.1);
    expect(findings.map(({ kind }) => kind)).toEqual(['mixed-ranges']);
    expect(findings[0]!.message).toContain('(× 10, × 1)');
  });

  it('counts digits in steps of the display, so a digit of 0.1 makes 80.0 three digits', () => {
    expect(look([80, 80, 80, 80, 80, 80, 80, 80, 80], undefined, 0.1)).toEqual([]);
    expect(look([9.9, 80, 80, 80, 80, 80, 80, 80, 80], undefined, 0.1).map(({ kind }) => kind)).toEqual([
      'outlier',
      'few-digits',
    ]);
  });
});

describe('properties of readings', () => {
  const reading = fc.double({ min: 1, max: 1000, noNaN: true });
  const nine = fc.array(reading, { minLength: 9, maxLength: 9 });

  it('a range factor × 10 with the display ÷ 10 is the same', () => {
    fc.assert(
      fc.property(nine, (display) => {
        const a = goodOf(net(display));
        const b = goodOf(
          net(
            display.map((d) => d / 10),
            { range: 10 },
          ),
        );
        for (const [i, e] of a.entries()) expect(b[i]! / e).toBeCloseTo(1, 12);
      }),
    );
  });

  it('the same light in lux and in footcandles is the same', () => {
    fc.assert(
      fc.property(nine, (lux) => {
        const b = goodOf(
          net(
            lux.map((e) => e / LUX.fc),
            { unit: 'fc' } as never,
          ),
        );
        for (const [i, e] of lux.entries()) expect(b[i]! / e).toBeCloseTo(1, 12);
      }),
    );
  });

  it('a correction per colour is the same as corrected readings', () => {
    fc.assert(
      fc.property(nine, fc.double({ min: 0.5, max: 2, noNaN: true }), (display, correction) => {
        const a = goodOf(net(display, { correction }));
        const b = goodOf(net(display.map((d) => d * correction)));
        for (const [i, e] of a.entries()) expect(b[i]! / e).toBeCloseTo(1, 12);
      }),
    );
  });
});
