import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';
import { CellError, call, errorOf, numberOf } from './call';
import { plainArgs } from './cases';
import { AREA, CORNERS, filled, type Grid, nine, WHITE, withCell } from './grids';

/** Bad input row by row: what people and spreadsheets do, and the answer they must get. */
describe('blank, text, error cell in a reading grid', () => {
  it.each([
    ['blank (null)', null, '#N/A', 'The nine-point reading at middle right (point 6) is missing.'],
    ['blank (empty text)', '', '#N/A', 'The nine-point reading at middle right (point 6) is missing.'],
    [
      'blank, as Excel hands it over',
      0,
      '#N/A',
      'The nine-point reading at middle right (point 6) is missing: the cell is empty or 0, and 0 cannot be a reading here.',
    ],
    [
      'text',
      'dim',
      '#VALUE!',
      'The nine-point reading at middle right (point 6) must be the number on the display; it is "dim".',
    ],
    [
      'unit typed with the number',
      '1 234,5 lx',
      '#VALUE!',
      'The nine-point reading at middle right (point 6) must be the number on the display; it is "1 234,5 lx".',
    ],
    [
      'error cell',
      { code: '#DIV/0!' },
      '#VALUE!',
      'The nine-point reading at middle right (point 6) must be the number on the display; the cell holds the error #DIV/0!.',
    ],
    [
      'over range',
      'over',
      '#VALUE!',
      'The nine-point reading at middle right (point 6) is over range: choose a higher range on the meter and read again.',
    ],
    [
      'negative',
      -3,
      '#VALUE!',
      'The nine-point reading at middle right (point 6) must not be negative; it is -3.',
    ],
    [
      'infinite',
      Number.POSITIVE_INFINITY,
      '#VALUE!',
      'The nine-point reading at middle right (point 6) must be a finite number.',
    ],
    [
      'absurd',
      200_001,
      '#VALUE!',
      'The nine-point reading at middle right (point 6) gives 200001 lx; more than 200000 lx is refused. Check range factor and unit.',
    ],
  ])('%s', (_, cell, code, message) => {
    const error = errorOf('OUTPUT', withCell(WHITE, 1, 2, cell), AREA);
    expect(error.code).toBe(code);
    expect(error.message).toBe(message);
  });

  it('several at once are all named, and one worse than missing makes it #VALUE!', () => {
    const error = errorOf('OUTPUT', withCell(withCell(WHITE, 0, 0, ''), 2, 2, 'over'), AREA);
    expect(error.code).toBe('#VALUE!');
    expect(error.message).toMatch(
      /top left \(point 1\) is missing\..*bottom right \(point 9\) is over range/,
    );
  });

  it('is never averaged over fewer points', () => {
    for (let i = 0; i < 9; i++)
      expect(errorOf('OUTPUT', withCell(WHITE, Math.floor(i / 3), i % 3, ''), AREA).message).toContain(
        `(point ${i + 1})`,
      );
  });

  it('other results that do not need the cell still stand', () => {
    const red = withCell(nine(200), 1, 1, '');
    expect(errorOf('COLOUROUTPUT', red, nine(700), nine(80), 2).message).toBe(
      'The red reading at middle centre (point 5) is missing.',
    );
    expect(numberOf('OUTPUT', nine(700), 2)).toBe(1400);
    expect(errorOf('CORNERS', WHITE, withCell(CORNERS, 1, 1, ''), 'lx').message).toBe(
      'The corner reading at bottom right corner (point 13) is missing.',
    );
    expect(numberOf('UNIFORMITY', WHITE)).toBe(0.805);
  });

  it('names the field the reading belongs to', () => {
    expect(errorOf('COLOUROUTPUT', nine(200), nine(700), withCell(nine(80), 0, 1, 'x'), 2).message).toContain(
      'The blue reading at top centre (point 2)',
    );
    expect(errorOf('CONTRAST', nine(500), withCell(nine(0.5), 0, 1, null)).message).toBe(
      'The black reading at top centre (point 2) is missing.',
    );
  });
});

describe('net reading below zero after ambient', () => {
  it('names the point, what was read and the ambient light', () => {
    expect(errorOf('OUTPUT', WHITE, AREA, 'lx', 1, 1, 810).message).toBe(
      'Ambient exceeds the reading at point 7 (bottom left, nine-point): 805 lx read, 810 lx ambient.',
    );
  });
  it('in black it is judged on the mean, against a step of the display', () => {
    expect(errorOf('CONTRAST', nine(500), nine(2), 0.1, 'lx', 1, 1, 1, 3).message).toBe(
      'Ambient exceeds the black readings by 1 lx, more than one step of the display: measure ambient and black again.',
    );
    expect(call('CONTRAST', nine(503), nine(2.95), 0.1, 'lx', 1, 1, 1, 3)).toBe('at least 5000');
  });
  it('an ambient light still to be measured is not 0', () => {
    for (const [id, args] of [
      ['OUTPUT', [WHITE, AREA, 'lx', 1, 1, [['']]]],
      ['OUTPUT', [WHITE, AREA, 'lx', 1, 1, '']],
      ['CHECKERBOARD', [filled(4, 4, 5), 'white', 0.1, 'lx', 1, 1, '']],
    ] as const) {
      const error = errorOf(id, ...args);
      expect(error.code).toBe('#N/A');
      expect(error.message).toBe('The ambient illuminance is missing.');
    }
  });
});

describe('zero or missing area, aspect of 0', () => {
  it.each([
    [
      'OUTPUT',
      [WHITE, 0],
      '#VALUE!',
      'The image area must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
    ['OUTPUT', [WHITE, null], '#N/A', 'The image area is missing.'],
    ['OUTPUT', [WHITE, -2], '#VALUE!', 'The image area must be greater than 0; it is -2.'],
    [
      'IMAGEAREA',
      [1.6, 0],
      '#VALUE!',
      'The image height must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
    [
      'IMAGESIZE',
      ['width', 1.6, '16:0'],
      '#VALUE!',
      'Aspect must be one of 16:10, 16:9, 4:3, 17:9, two numbers such as 21:9, or the native pixels such as 1920x1080; it is "16:0".',
    ],
    ['RATIO', [800, 0], '#VALUE!', 'The white must be greater than 0; it is 0 (an empty cell counts as 0).'],
    [
      'RATIO',
      [0, 2300],
      '#VALUE!',
      'The colour must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
    [
      'DRIFT',
      [1000, 0],
      '#VALUE!',
      'The last reading must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
  ] as const)('%s %j', (id, args, code, message) => {
    const error = errorOf(id, ...args);
    expect(error.code).toBe(code);
    expect(error.message).toBe(message);
  });
});

describe('wrong grid shape', () => {
  it.each([
    [
      'OUTPUT',
      [filled(3, 4, 100), AREA],
      'The nine-point readings must be a grid of 3 × 3 cells; it is 3 × 4.',
    ],
    [
      'OUTPUT',
      [filled(9, 1, 100), AREA],
      'The nine-point readings must be a grid of 3 × 3 cells; it is 9 × 1.',
    ],
    ['OUTPUT', [100, AREA], 'The nine-point readings must be a grid of 3 × 3 cells; it is 1 × 1.'],
    [
      'OUTPUT',
      [WHITE, AREA, 'lx', filled(2, 2, 1)],
      'The range factor must be a grid of 3 × 3 cells; it is 2 × 2.',
    ],
    [
      'OUTPUT',
      [WHITE, AREA, 'lx', 1, 1, filled(3, 4, 1)],
      'The ambient illuminance must be a grid of 3 × 3 cells; it is 3 × 4.',
    ],
    ['CORNERS', [WHITE, nine(100)], 'The corner readings must be a grid of 2 × 2 cells; it is 3 × 3.'],
    ['CHECKERBOARD', [nine(100)], 'The checkerboard readings must be a grid of 4 × 4 cells; it is 3 × 3.'],
    [
      'TILED',
      [nine(1), nine(1), filled(3, 4, 1), 'red'],
      'The pattern C readings must be a grid of 3 × 3 cells; it is 3 × 4.',
    ],
  ] as const)('%s names both shapes', (id, args, message) => {
    const error = errorOf(id, ...args);
    expect(error.code).toBe('#VALUE!');
    expect(error.message).toBe(message);
  });
});

/** Bounds: the last value that is taken and the first that is not. */
describe('bounds', () => {
  it.each([
    ['ILLUMINANCE', 0, 0, -1e-9],
    // The plain call is on the × 10 range.
    ['ILLUMINANCE', 0, 20_000, 20_001],
    ['ILLUMINANCE', 2, 1e-6, 0],
    ['ILLUMINANCE', 3, 1e-6, 0],
    ['MEANILLUMINANCE', 2, 1e-6, 0],
    ['OUTPUT', 1, 1e-6, 0],
    ['OUTPUT', 1, 3600, 3601],
    ['OUTPUT', 4, 1e-6, 0],
    ['OUTPUT', 5, 0, -1e-9],
    ['OUTPUT', 5, 805, 805.001],
    ['COLOUROUTPUT', 3, 1e-6, 0],
    ['COLOUROUTPUT', 8, 1e-6, 0],
    ['RATIO', 0, 1e-6, 0],
    ['RATIO', 1, 1e-6, 0],
    ['BALANCE', 0, 1e-6, 0],
    ['BALANCE', 1, 1e-6, 0],
    ['BALANCE', 2, 1e-6, 0],
    ['IMAGESIZE', 1, 60, 60.1],
    ['IMAGEAREA', 0, 0.1, 0.09],
    ['IMAGEAREA', 1, 60, 60.1],
    ['POINTS', 1, 60, 60.1],
    ['POINTS', 2, 0.1, 0],
    ['FINDINGS', 6, 0, -1],
    ['CONTRAST', 2, 0, -1e-9],
    ['CHECKERBOARD', 2, 0, -1e-9],
    ['LUMINANCE', 0, 1e-6, 0],
    ['LUMINANCE', 1, 1e-6, 0],
    ['DRIFT', 0, 1e-6, 0],
    ['DRIFT', 1, 1e-6, 0],
    ['COVERAGEFACTOR', 0, 1, 0.999],
    ['COVERAGEFACTOR', 1, 0.999999, 1],
    ['COVERAGEFACTOR', 1, 0.01, 0],
    ['CONFORMITY', 1, 0.001, 0],
    ['DECISION', 1, 0.001, 0],
    ['REPORT', 1, 1e-9, 0],
    ['LIMIT', 0, 1e-6, 0],
    ['LIMIT', 1, 2, 2.01],
  ] as const)('%s, argument %d: %d is taken, %d is not', (id, i, last, first) => {
    const args = [...plainArgs(id)];
    expect(call(id, ...args.map((arg, k) => (k === i ? last : arg)))).not.toBeInstanceOf(CellError);
    const error = errorOf(id, ...args.map((arg, k) => (k === i ? first : arg)));
    expect(error.code).toBe('#VALUE!');
    expect(error.message).toContain(id === 'ILLUMINANCE' && first > 0 ? '200010 lx' : String(first));
  });
});

describe('findings, in the visible cell', () => {
  it.each([
    ['nothing typed', nine(0), 'no readings yet'],
    [
      'two missing',
      withCell(withCell(WHITE, 0, 0, 0), 1, 1, ''),
      'Missing: top left (point 1), middle centre (point 5).',
    ],
    [
      'a forgotten range',
      withCell(WHITE, 1, 1, 100),
      "The white reading at middle centre (point 5) is 100 × 1; the grid's median is 820. Is the range factor right?",
    ],
    [
      'over range before missing',
      withCell(withCell(WHITE, 0, 0, ''), 2, 0, 'OL'),
      'The white reading at bottom left (point 7) is over range: choose a higher range on the meter and read again. Missing: top left (point 1).',
    ],
  ])('%s', (_, grid, text) => expect(call('FINDINGS', 'white', grid)).toBe(text));

  it('0 is a reading of black, not a gap', () => {
    expect(call('FINDINGS', 'black', nine(0))).toBe('nothing to remark');
  });
});

/** Excel hands an empty cell over as 0: black and the checkerboard may read 0 where the caller says how many were read. */
describe('an empty cell never becomes a reading of 0', () => {
  /** One bad row must not take the whole table away: the row says what it lacks. */
  const ROW_BY_ROW = { BATCH: '8 of 9', BATCHCENTRE: '3 of 4' } as const;
  const grids = FUNCTIONS.flatMap(({ id, params }) =>
    params.flatMap(({ name, isMatrix, isOptional, description }, i) =>
      isMatrix && !isOptional && /readings/.test(description) && id !== 'FINDINGS' ? [{ id, name, i }] : [],
    ),
  );

  it('walks every grid of readings', () => {
    expect(grids.map(({ id, name }) => `${id} ${name}`)).toEqual([
      'MEANILLUMINANCE readings',
      'OUTPUT readings',
      'FITTEDOUTPUT readings',
      'COLOUROUTPUT red',
      'COLOUROUTPUT green',
      'COLOUROUTPUT blue',
      'TILED patternA',
      'TILED patternB',
      'TILED patternC',
      'UNIFORMITY readings',
      'DEVIATION readings',
      'DEVIATION corners',
      'CORNERS readings',
      'CORNERS corners',
      'CONTRAST white',
      'CONTRAST black',
      'CHECKERBOARD readings',
      'REPEATABILITY repeats',
      'BATCH readings',
      'BATCHCENTRE readings',
    ]);
  });

  it.each(grids)('$id $name', ({ id, i }) => {
    const args = plainArgs(id);
    const result = call(id, ...args.map((arg, k) => (k === i ? withCell(arg as Grid, 0, 0, 0) : arg)));
    if (id in ROW_BY_ROW)
      expect(result).toMatchObject({ 0: { 0: ROW_BY_ROW[id as keyof typeof ROW_BY_ROW] } });
    else expect(result).toMatchObject({ code: '#N/A' });
  });

  it('a black no larger than its own doubt gives a bound: white ÷ (black + U)', () => {
    // 872 lx over 0.25 lx; U of black 1.6 lx: 872 ÷ 1.85 = 471.4. Of 0.2 lx it is a number.
    const args = [nine(872), nine(0.25), 0.1, 'lx', 1, 1, 1, 0, 9] as const;
    expect(call('CONTRAST', ...args, 1.6)).toBe('at least 471');
    expect(call('CONTRAST', ...args, 0.2)).toBeCloseTo(3488, 9);
    expect(call('CONTRAST', ...args)).toBeCloseTo(3488, 9);
    expect(errorOf('CONTRAST', nine(872), nine(0.25), 0.1, 'lx', 1, 1, 1, 2, 9, 1.6).message).toContain(
      'more than its own doubt',
    );
  });

  it('unless the readings were counted', () => {
    const ten = filled(4, 4, 10);
    expect(call('CONTRAST', nine(500), nine(0), 0.1, 'lx', 1, 1, 1, 0, 9)).toBe('at least 5000');
    expect(errorOf('CONTRAST', nine(500), nine(0), 0.1, 'lx', 1, 1, 1, 0, 8).message).toBe(
      'There must be 9 black readings; the count given is 8.',
    );
    expect(errorOf('CONTRAST', nine(500), nine(0), 0.1).message).toBe(
      'The black reading at top left (point 1) is empty or 0, and 8 more: an empty cell counts as 0. If the display did show 0, give the count of readings as the last argument.',
    );
    expect(errorOf('CHECKERBOARD', withCell(ten, 0, 0, 0), 'white', 0.1, 'lx', 1, 1, 0, 16).message).toBe(
      'The white checkerboard reading at row 1, column 1 (tile 1) is missing: the cell is empty or 0, and 0 cannot be a reading here.',
    );
  });
});

/** 0 is how an empty cell arrives: none of these may be decided, reported or added up. */
describe('an empty cell is never a verdict', () => {
  const column = (...values: readonly unknown[]) => values.map((value) => [value]);
  it.each([
    [
      'DECISION',
      [0, 118, null, 1840],
      'The measured value is missing: the cell is empty or 0; for 0 write 1E-300.',
    ],
    [
      'CONFORMITY',
      [0, 59, 1840],
      'The measured value is missing: the cell is empty or 0; for 0 write 1E-300.',
    ],
    [
      'REPORT',
      [2231.4, 0, 'lm'],
      'The expanded uncertainty must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
    [
      'DIFFERENCES',
      [[[1, 2]], [['∞', '∞']], [[0, 0]], [[1, 1]], [[1, 0, 0]]],
      'The number of the meter in row 1 is missing: the cell is empty or 0; number them from 1.',
    ],
    [
      'BUDGET',
      [column('a', 'b'), column(0.03, 0), column('normal', 'normal'), column(1, 1), column('∞', '∞')],
      'The half width in row 2 is missing: the cell is empty or 0; leave out the row of what does not count.',
    ],
    [
      'LOTVERDICT',
      [13, 1, 13, 1, 13],
      'Conforming and nonconforming units must add up to the inspected ones; they are 13, 1 and 13.',
    ],
    [
      'LOTVERDICT',
      [13, 13, 13, 13],
      'The acceptance number must be smaller than the sample, or no lot is ever rejected; they are 13 and 13.',
    ],
  ] as const)('%s %j', (id, args, message) => {
    expect(errorOf(id, ...args).message).toContain(message);
  });

  it('a ratio is reported without a unit, and an empty unit is none', () => {
    for (const unit of [null, '', 0]) expect(call('REPORT', 0.9821, 0.0312, unit)).toBe('0.982 ± 0.031');
  });
});

/** Decided in decimals: 4621.6 + 205.3 is 4826.9, whatever binary numbers make of it. */
describe('exactly on a limit', () => {
  it.each([
    [4826.9, 205.3, 4621.6, 'pass'],
    [0.6, 0.2, 0.8, 'conditional fail'],
    [4621.6, 205.3, 4621.6, 'conditional pass'],
    [4826.8, 205.3, 4621.6, 'conditional pass'],
    [0.59, 0.2, 0.8, 'fail'],
  ] as const)('%d ± %d against %d: %s', (value, U, limit, verdict) => {
    expect(call('DECISION', value, U, null, limit)).toBe(verdict);
    // An upper limit is a lower one seen in a mirror.
    expect(call('DECISION', -value, U, null, null, -limit)).toBe(verdict);
  });

  it('in all of 2000 sums of decimals (whole numbers of the last digit tell)', () => {
    const worth = { pass: 3, 'conditional pass': 2, 'conditional fail': 1, fail: 0 } as const;
    let seed = 7;
    const next = (top: number) => {
      seed = (seed * 16_807) % 2_147_483_647;
      return 1 + (seed % top);
    };
    for (let i = 0; i < 2000; i++) {
      const [T, U, place] = [next(99_999), next(9999), 10 ** (i % 4)];
      for (const [y, wanted] of [
        [T + U, 3],
        [T + U - 1, 2],
        [T, 2],
        [T - 1, 1],
        [T - U, 1],
        [T - U - 1, 0],
      ] as const) {
        if (y === 0) continue;
        const verdict = call('DECISION', y / place, U / place, null, T / place) as keyof typeof worth;
        expect(worth[verdict], `${y} ± ${U} against ${T}, ÷ ${place}`).toBe(wanted);
      }
    }
  });
});

describe('an image that no projector makes', () => {
  it.each([
    [
      'IMAGEAREA',
      [200, 112],
      "The image width must be that of a projector's image, from 0.1 m to 60 m; it is 200 m. Check the unit.",
    ],
    ['IMAGEAREA', [1e308, 1], 'from 0.1 m to 60 m; it is 1e+308 m'],
    ['IMAGESIZE', ['diagonal', 100, '16:9'], "The image diagonal must be that of a projector's image"],
    ['IMAGESIZE', ['width', 2, '1600:9'], 'No image is more than 20 times as wide as high'],
    ['OUTPUT', [WHITE, 22_400], 'The image area must be at most 3600; it is 22400.'],
  ] as const)('%s %j', (id, args, message) => expect(errorOf(id, ...args).message).toContain(message));

  it('inches are taken as such', () => {
    expect(call('IMAGESIZE', 'diagonal', 100, '16:9', 'in')).not.toBeInstanceOf(CellError);
  });
});

describe('an aspect that a spreadsheet took for a time', () => {
  it.each([
    [(16 * 60 + 9) / 1440, '16:9'],
    [(4 * 60 + 3) / 1440, '4:3'],
    [(16 * 60 + 10) / 1440, '16:10'],
    [(21 * 60 + 9) / 1440, '21:9'],
    [(32 * 60 + 9) / 1440, '32:9'],
  ])('%d', (cell, aspect) => {
    expect(errorOf('IMAGESIZE', 'width', 1.6, cell).message).toBe(
      `The aspect is the number ${cell}: the spreadsheet took ${aspect} for a time of day. Type '${aspect} with the apostrophe in front, or ${aspect.replace(':', 'x')}.`,
    );
  });
  it.each([16 / 9, 4 / 3, 1.6, 0.5])('%d is none', (cell) => {
    expect(errorOf('IMAGESIZE', 'width', 1.6, cell).message).toContain('Aspect must be one of');
  });
});
