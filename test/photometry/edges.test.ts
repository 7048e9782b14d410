import { describe, expect, it } from 'vitest';
import { measuredShares } from '../../src/photometry/colour';
import { checkerboardContrast, contrast } from '../../src/photometry/contrast';
import { DRIFT_LIMIT, drift } from '../../src/photometry/drift';
import { parseAspect, quadrilateral, SIDE_DIFFERENCE_LIMIT, sizeProblems } from '../../src/photometry/image';
import { colourToWhite } from '../../src/photometry/lightoutput';
import { isOverRange, loneOnes } from '../../src/photometry/overrange';
import { inspect, median } from '../../src/photometry/plausibility';
import { NINE, SINGLE } from '../../src/photometry/reading';
import { cornersOverCentre, deviations, minOverMax, minOverMean } from '../../src/photometry/uniformity';
import { goodOf, problemsOf } from './outcome';

/* Where a rule begins and where it ends: one step on either side of it, worked by hand. */

describe('four sides and two diagonals', () => {
  it('either pair of opposite sides can be the worse one (arithmetic)', () => {
    // A trapezium 4 and 2 wide, 3 high: sides √(1² + 3²), diagonals √(3² + 3²), area 9.
    const [leg, across] = [Math.sqrt(10), Math.sqrt(18)];
    const upright = { top: 2, right: leg, bottom: 4, left: leg, falling: across, rising: across };
    const lying = { top: leg, right: 4, bottom: leg, left: 2, falling: across, rising: across };
    for (const sides of [upright, lying]) {
      const { area, worstSideDifference } = goodOf(quadrilateral(sides));
      expect(area).toBeCloseTo(9, 12);
      expect(worstSideDifference).toBeCloseTo(1, 12);
    }
  });

  it.each([
    // Sides in order, falling and rising diagonal; only the one triangle named does not close (Euclid I.20).
    ['falling longer than bottom and left', 5, 5, 1, 1, 3, 5],
    ['falling longer than top and right', 1, 1, 5, 5, 3, 5],
    ['rising longer than top and left', 1, 5, 5, 1, 5, 3],
    ['rising longer than right and bottom', 5, 1, 1, 5, 5, 3],
    ['bottom longer than left and falling', 4, 4, 5, 1, 3, 4.9],
    ['top longer than right and falling', 5, 1, 4, 4, 3, 4.9],
    ['top longer than left and rising', 5, 4, 4, 1, 4.9, 3],
    ['right longer than bottom and rising', 4, 5, 1, 4, 4.9, 3],
  ])('%s is no figure at all', (_, top, right, bottom, left, falling, rising) => {
    const [problem] = problemsOf(quadrilateral({ top, right, bottom, left, falling, rising }));
    expect(problem!.message).toMatch(/^No image has sides/);
  });

  it('one per cent between sides, two of drift are where squaring and repeating begin (common practice)', () => {
    expect([SIDE_DIFFERENCE_LIMIT, DRIFT_LIMIT]).toEqual([0.01, 0.02]);
  });
});

describe('contrast', () => {
  it('is a bound up to one step of the display and a number from there on', () => {
    expect(goodOf(contrast(500, 0.1, 0.1)).isLowerBound).toBe(true);
    expect(goodOf(contrast(500, 0.1001, 0.1)).isLowerBound).toBe(false);
  });

  it('as a bound is cut to a whole number, never rounded up', () => {
    expect(goodOf(contrast(99.96, 0, 0.1)).ratio).toBe(999);
    // 100 ÷ 0.1 is 1000 in decimals, whatever its binary form.
    expect(goodOf(contrast(100, 0, 0.1)).ratio).toBe(1000);
  });

  it('tolerates one step below ambient, not more', () => {
    expect(goodOf(contrast(500, -0.1, 0.1)).isLowerBound).toBe(true);
    expect(problemsOf(contrast(500, -0.1001, 0.1))[0]!.code).toBe('ambient-exceeds');
  });

  it('where black is within its doubt is a bound by black and doubt together (arithmetic)', () => {
    expect(goodOf(contrast(500, 0.3, 0.1, 0.4))).toEqual({ ratio: 714, isLowerBound: true });
    // Below ambient, yet within the doubt: by the doubt alone. Without a doubt stated, by the step.
    expect(goodOf(contrast(500, -0.3, 0.1, 0.4))).toEqual({ ratio: 1250, isLowerBound: true });
    expect(goodOf(contrast(500, 0.1, 0.1))).toEqual({ ratio: 5000, isLowerBound: true });
    expect(goodOf(contrast(500, 0.05, 0.1, 0.02))).toEqual({ ratio: 5000, isLowerBound: true });
  });

  it('says of black below ambient what it exceeds', () => {
    const said = (resolution: number, doubt?: number) =>
      problemsOf(contrast(500, -0.5, resolution, doubt))[0]!.message;
    expect(said(0.1, 0.4)).toContain('by 0.5 lx, more than its own doubt');
    expect(said(0.1)).toContain('more than one step of the display');
    expect(said(0.4, 0.4)).toContain('more than one step of the display');
  });

  it('of a board whose tiles are alike is 1, and no mistake', () => {
    const grey = Array.from({ length: 16 }, () => 50);
    expect(goodOf(checkerboardContrast(grey, 'white', 0.1))).toEqual({ ratio: 1, isLowerBound: false });
  });
});

describe('an aspect', () => {
  it('may stand between blanks and have decimals', () => {
    expect(goodOf(parseAspect(' 16:9 '))).toEqual({ across: 16, down: 9 });
    expect(goodOf(parseAspect('2.39 : 1'))).toEqual({ across: 2.39, down: 1 });
    expect(goodOf(parseAspect('1.85:1.05'))).toEqual({ across: 1.85, down: 1.05 });
  });

  it('is twenty to one at most, either way', () => {
    expect(goodOf(parseAspect('20:1'))).toEqual({ across: 20, down: 1 });
    expect(goodOf(parseAspect('1:20'))).toEqual({ across: 1, down: 20 });
    for (const text of ['20.1:1', '1:20.1'])
      expect(problemsOf(parseAspect(text))[0]).toMatchObject({ code: 'out-of-bounds', where: 'aspect' });
  });

  // A spreadsheet keeps a time as a part of a day (ECMA-376-1, 18.17.4.1): 16:09 is 969 ÷ 1440.
  it.each([
    ['16:9', 969 / 1440],
    ['4:3', 243 / 1440],
    ['23:59', 1439 / 1440],
    ['32:9', 1929 / 1440],
    ['32:10', 1930 / 1440],
  ])('%s that became a time of day is recognised', (typed, number) => {
    const [problem] = problemsOf(parseAspect(String(number)));
    expect(problem!.message).toContain(`the spreadsheet took ${typed} for a time of day`);
  });

  it.each([
    ['a whole hour', 16 / 24],
    ['midnight', 0],
    ['a ratio above a day', 1.778],
    ['32:11', 1931 / 1440],
    ['a day and no hour', 1],
    ['a day and a minute', 1441 / 1440],
    ['seconds', 969.5 / 1440],
    ['a time before midnight', -969 / 1440],
  ])('%s is no time that was meant for one', (_, number) => {
    const [problem] = problemsOf(parseAspect(String(number)));
    expect(problem!.message).toMatch(/^Aspect must be one of 16:10, 16:9, .*it is "/);
  });
});

describe('lengths of an image', () => {
  it('are 0.1 m to 60 m, both included', () => {
    expect(sizeProblems({ width: 0.1, height: 60 })).toEqual([]);
    const found = sizeProblems({ width: 0.0999, height: 60.1, diagonal: 2 });
    expect(found.map(({ where, code }) => [where, code])).toEqual([
      ['width', 'out-of-bounds'],
      ['height', 'out-of-bounds'],
    ]);
    expect(found[0]!.message).toBe(
      "The width must be that of a projector's image, from 0.1 m to 60 m; it is 0.0999 m. Check the unit.",
    );
  });

  it('miss each other by one per cent of the longest side at most (common practice)', () => {
    const side = Math.SQRT2;
    const rising = (factor: number) =>
      quadrilateral({ top: 1, right: 1, bottom: 1, left: 1, falling: side, rising: side + 0.01 * factor });
    expect(rising(0.99).ok).toBe(true);
    expect(problemsOf(rising(1.01))[0]).toMatchObject({ code: 'impossible-shape', where: 'sides' });
    expect(problemsOf(rising(-1.01))[0]!.code).toBe('impossible-shape');
  });
});

describe('a lone 1 of a display', () => {
  it('is asked about among others three times as large, which their middle tells', () => {
    expect(loneOnes([1, 310, 290, 305])).toEqual({ at: [0], among: 305 });
    expect(loneOnes([290, 1, 1, 310])).toEqual({ at: [1, 2], among: 310 });
    expect(loneOnes([1, 3, 3, 3])).toEqual({ at: [], among: 3 });
    expect(loneOnes([1, 3.1, 3.1])).toEqual({ at: [0], among: 3.1 });
  });
  it('stands among numbers above 0; texts, blanks and noughts do not count', () => {
    expect(loneOnes([1, 'over', null, 0, -5, 200])).toEqual({ at: [0], among: 200 });
    expect(loneOnes([1, 1, 1])).toEqual({ at: [], among: 0 });
    expect(loneOnes(['1', 40, 9, 100])).toEqual({ at: [], among: 40 });
    expect(loneOnes([1, 0, 0, 200])).toEqual({ at: [0], among: 200 });
    expect(loneOnes([1, 2, 2, '500', '500'])).toEqual({ at: [], among: 2 });
  });
});

describe('colour, drift', () => {
  it('a primary of 0 lm is a share of 0', () => {
    expect(goodOf(measuredShares(300, 700, 0))).toEqual({ red: 0.3, green: 0.7, blue: 0 });
    expect(goodOf(measuredShares(0, 700, 300))).toEqual({ red: 0, green: 0.7, blue: 0.3 });
    expect(goodOf(measuredShares(300, 0, 700))).toEqual({ red: 0.3, green: 0, blue: 0.7 });
  });
  it('a primary below 0 lm is none, whichever it is', () => {
    for (const [r, g, b] of [
      [-1, 900, 90],
      [900, -1, 90],
      [900, 90, -1],
      [0, 0, 0],
    ] as const)
      expect(problemsOf(measuredShares(r, g, b))[0]).toMatchObject({ where: 'colour balance' });
  });
  it('no colour at all is a ratio of 0', () => {
    expect(goodOf(colourToWhite(0, 2300))).toBe(0);
  });
  it('a projector that went dark drifted by all of its light', () => {
    expect(goodOf(drift(800, 0))).toBe(-1);
    expect(problemsOf(drift(800, -1))[0]!.code).toBe('negative');
    expect(problemsOf(drift(0, 800))[0]!.code).toBe('not-defined');
  });
});

describe('readings that are asked about', () => {
  const kinds = (display: readonly (number | undefined)[], ranges = display.map(() => 1)) =>
    inspect({ display, ranges, digit: 1, shape: NINE, label: 'white' }).map(({ kind }) => kind);

  it('an outlier needs three readings to stand out from', () => {
    expect(kinds([500, 5000])).toEqual([]);
    expect(kinds([500, 510, 5000])).toEqual(['outlier']);
  });
  it('three times the median is not yet an outlier, more is; so for a third of it', () => {
    expect(kinds([300, 300, 900])).toEqual([]);
    expect(kinds([300, 300, 901])).toEqual(['outlier']);
    expect(kinds([900, 900, 300])).toEqual([]);
    expect(kinds([900, 900, 299])).toEqual(['outlier']);
  });
  it('100 steps of the display are three significant digits, 99 are two', () => {
    expect(kinds([100, 120, 130])).toEqual([]);
    expect(kinds([99, 120, 130])).toEqual(['few-digits']);
  });
  it('what is missing is neither a neighbour nor of a range', () => {
    expect(kinds([undefined, 500, 5000])).toEqual([]);
    expect(kinds([undefined, 500, 510, 490], [10, 1, 1, 1])).toEqual([]);
    expect(kinds([undefined, 500, 510, 490], [1, 1, 1, 10])).toEqual(['outlier', 'mixed-ranges']);
  });
  it('too few digits are said with the reading and the way out (the words are ours: regression)', () => {
    const [finding] = inspect({ display: [99], ranges: [1], digit: 1, shape: SINGLE, label: 'white' });
    expect(finding).toEqual({
      index: 0,
      kind: 'few-digits',
      message:
        'The white reading at centre (point 5) has fewer than three significant digits (99): step down a range if the meter allows.',
    });
  });
  it.each([
    // By hand; as text 9 would come after 100.
    [[3, 1, 2], 2],
    [[100, 20, 9], 20],
    [[40, 10, 30, 20], 25],
    [[7], 7],
  ])('the middle of %j is %d', (values, middle) => expect(median(values)).toBe(middle));

  it('o.r. with its points is over range as well (as meters show it; common practice)', () => {
    expect(['o.r.', 'O.R', ' ol ', '1.'].map(isOverRange)).toEqual([true, true, true, true]);
    // Several blanks count as one, and none at an end.
    expect(['1  .', '  ol', 'OL  '].map(isOverRange)).toEqual([true, true, true]);
    expect(['1', 1, 'o.k.', ''].map(isOverRange)).toEqual([false, false, false, false]);
  });
});

// A person must know which reading is 0. The words are ours: regression.
it.each([
  ['largest reading', (dark: number[]) => minOverMax(dark)],
  ['mean of nine readings', (dark: number[]) => minOverMean(dark)],
  ['centre reading', (dark: number[]) => cornersOverCentre(dark, [1, 1, 1, 1])],
  ['mean of nine readings', (dark: number[]) => deviations(dark, [1, 1, 1, 1])],
])('uniformity of darkness says that the %s is 0', (where, uniformity) => {
  const [problem] = problemsOf(uniformity(Array.from({ length: 9 }, () => 0)));
  expect(problem!.message).toBe(`Uniformity is not defined: the ${where} is 0 lx.`);
});
