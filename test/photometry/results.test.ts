import { describe, expect, it } from 'vitest';
import { measuredShares, SIGNAL_STANDARDS, standardShares } from '../../src/photometry/colour';
import { checkerboardContrast, contrast, sequentialContrast } from '../../src/photometry/contrast';
import { drift } from '../../src/photometry/drift';
import { colourLightOutput, colourToWhite, lightOutput } from '../../src/photometry/lightoutput';
import { luminance } from '../../src/photometry/luminance';
import { NINE_POINTS } from '../../src/photometry/points';
import { mean } from '../../src/photometry/reading';
import { cornersOverCentre, deviations, minOverMax, minOverMean } from '../../src/photometry/uniformity';
import { COLOUR_SHARES, FALL_OFF, LUMINANCES, WORKED_RUN } from '../references/photometry';
import { expectPrinted, expectRow } from './closeto';
import { goodOf, problemsOf } from './outcome';

const nine = WORKED_RUN.nine.flat();
const corners = WORKED_RUN.corners.flat();
const area = WORKED_RUN.width * WORKED_RUN.height;
const { results } = WORKED_RUN;

describe('the worked run', () => {
  it.each([
    [results.mean, () => mean(nine)],
    [results.output, () => goodOf(lightOutput(nine, area))],
    [results.minMax, () => goodOf(minOverMax(nine))],
    [results.minMean, () => goodOf(minOverMean(nine))],
    [results.plus, () => goodOf(deviations(nine, corners)).plus],
    [results.minus, () => goodOf(deviations(nine, corners)).minus],
    [results.corners, () => goodOf(cornersOverCentre(nine, corners))],
  ])('$0.name = $0.printed ($0.source)', (row, compute) => expectRow(compute(), row));

  it('nine-point mean of a plain fall-off lies 4 % above the integral', () => {
    const illuminance = (u: number, v: number) => 1000 * (1 - 0.4 * ((2 * u - 1) ** 2 + (2 * v - 1) ** 2));
    const ours = mean(NINE_POINTS.map(({ u, v }) => illuminance(u, v)));
    expectRow(ours, FALL_OFF.nineMean);
    expectRow(ours / Number(FALL_OFF.trueMean.printed) - 1, FALL_OFF.bias);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses an image area of %s m²', (bad) => {
    expect(problemsOf(lightOutput(nine, bad))[0]!.message).toBe(
      `The image area must be greater than 0 m²; it is ${bad}.`,
    );
  });

  it('refuses uniformity of darkness instead of dividing by 0', () => {
    const dark = Array.from({ length: 9 }, () => 0);
    for (const outcome of [
      minOverMax(dark),
      minOverMean(dark),
      deviations(dark, corners),
      cornersOverCentre(dark, corners),
    ])
      expect(problemsOf(outcome)[0]!.code).toBe('not-defined');
  });
});

describe('colour light output and its ratio to white (common practice)', () => {
  it.each([
    // White near 2300 lm with colour near 800 lm is a ratio near 0.35; equal figures are 1. Plain arithmetic.
    { red: 170, green: 570, blue: 60, white: 2300, colour: 800, ratio: '0.35' },
    { red: 500, green: 1600, blue: 200, white: 2300, colour: 2300, ratio: '1.000000' },
  ])('$red + $green + $blue lm beside $white lm is $ratio', ({ red, green, blue, white, colour, ratio }) => {
    expect(colourLightOutput(red, green, blue)).toBe(colour);
    expectPrinted(goodOf(colourToWhite(colour, white)), ratio);
  });

  it('refuses a ratio to no white', () => {
    expect(problemsOf(colourToWhite(800, 0))[0]!.message).toBe(
      'White light output must be greater than 0 lm; it is 0.',
    );
    expect(problemsOf(colourToWhite(-1, 2300))[0]!.code).toBe('negative');
  });
});

describe('luminance shares at a standard’s white', () => {
  it('every standard offered has a row of reference values', () => {
    expect(COLOUR_SHARES.map(({ standard }) => standard).sort()).toEqual([...SIGNAL_STANDARDS].sort());
  });

  it.each(COLOUR_SHARES)('$standard: $full ($source)', ({ standard, full, published }) => {
    const { red, green, blue } = goodOf(standardShares(standard));
    [red, green, blue].forEach((share, i) => {
      expectPrinted(share, full[i]!);
      if (published) expectPrinted(share, published[i]!);
    });
    expect(red + green + blue).toBeCloseTo(1, 14);
  });

  it('refuses an unknown standard and lists the known ones', () => {
    const [problem] = problemsOf(standardShares('toString'));
    for (const standard of SIGNAL_STANDARDS) expect(problem!.message).toContain(standard);
  });

  it('shares of measured light output are parts of their sum (arithmetic)', () => {
    expect(goodOf(measuredShares(500, 1500, 500))).toEqual({ red: 0.2, green: 0.6, blue: 0.2 });
    expect(problemsOf(measuredShares(0, 0, 0))[0]!.code).toBe('not-defined');
    expect(problemsOf(measuredShares(-1, 5, 5))[0]!.code).toBe('not-defined');
  });
});

describe('contrast', () => {
  const constant = (value: number) => Array.from({ length: 9 }, () => value);

  it('sequential is the mean of nine white over the mean of nine black (as retold; from memory)', () => {
    const black = [0.8, 0.9, 0.8, 0.9, 1, 0.9, 0.8, 0.9, 0.8];
    // 7845 ÷ 7.8, by arithmetic.
    const result = goodOf(sequentialContrast(nine, black, 0.1));
    expect(result.isLowerBound).toBe(false);
    expectPrinted(result.ratio, '1005.769231');
  });

  it.each([
    // Black at or below one step of the display cannot be told from nothing: white ÷ step, "at least" (ours).
    { black: 0.1, step: 0.1, ratio: 5000, isLowerBound: true },
    { black: 0, step: 0.1, ratio: 5000, isLowerBound: true },
    { black: -0.05, step: 0.1, ratio: 5000, isLowerBound: true },
    { black: 0.2, step: 0.1, ratio: 2500, isLowerBound: false },
    { black: 2, step: 0, ratio: 250, isLowerBound: false },
  ])('500 lx over $black lx with steps of $step lx: $ratio', ({ black, step, ratio, isLowerBound }) => {
    const result = goodOf(sequentialContrast(constant(500), constant(black), step));
    expect(result.isLowerBound).toBe(isLowerBound);
    expect(result.ratio).toBeCloseTo(ratio, 9);
  });

  it.each([
    { white: 0, black: 1, step: 0.1, code: 'not-defined' },
    { white: 500, black: -0.3, step: 0.1, code: 'ambient-exceeds' },
    { white: 500, black: 0, step: 0, code: 'not-defined' },
  ])('refuses $white lx over $black lx with steps of $step lx', ({ white, black, step, code }) => {
    expect(problemsOf(contrast(white, black, step))[0]!.code).toBe(code);
  });

  it('checkerboard is the mean of 8 white over the mean of 8 black tiles, row by row (from memory)', () => {
    // Whites sum to 3200 + 40, blacks to 16 − 4: 405 over 1.5 lx is 270, by hand.
    const board = [
      [400, 2, 410, 1],
      [2, 400, 1, 410],
      [410, 1, 400, 2],
      [1, 410, 2, 400],
    ].flat();
    expect(goodOf(checkerboardContrast(board, 'white', 0.1)).ratio).toBeCloseTo(270, 9);
    const turned = board.slice(4).concat(board.slice(0, 4));
    expect(goodOf(checkerboardContrast(turned, 'black', 0.1)).ratio).toBeCloseTo(270, 9);
    expect(problemsOf(checkerboardContrast(board, 'black', 0.1))[0]!.message).toBe(
      'The tiles called white are darker than those called black (1.500 and 405.0 lx): is the top left tile really black?',
    );
  });
});

describe('luminance and drift', () => {
  it.each(LUMINANCES)('$name: $printed $unit ($source)', (row) =>
    expectRow(luminance(row.lux, row.gain, row.unit), row),
  );

  it('drift is last over first, minus 1 (common practice)', () => {
    expect(goodOf(drift(1000, 985))).toBeCloseTo(-0.015, 15);
    expect(goodOf(drift(1000, 1000))).toBe(0);
    expect(problemsOf(drift(0, 985))[0]!.code).toBe('not-defined');
    expect(problemsOf(drift(1000, -1))[0]!.code).toBe('negative');
  });
});
