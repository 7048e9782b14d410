import { H1 } from '../references/gum';
import { COLOUR_SHARES, FOUR_SIDES, IMAGES, LUMINANCES, WORKED_RUN } from '../references/photometry';
import { BATCH_CASES } from './batchcases';
import type { Case } from './case';
import { AREA, BOARD, CORNERS, nine, WHITE } from './grids';
import { PROCUREMENT_CASES } from './procurementcases';

const { results } = WORKED_RUN;
const printed = (row: { name: string; printed: string; source: string }, args: readonly unknown[]): Case => ({
  name: row.name,
  args,
  expect: row.printed,
  source: row.source,
});
const arithmetic = (name: string, args: readonly unknown[], expect: string): Case => ({
  name,
  args,
  expect,
  source: 'plain arithmetic',
});

/** Three patterns of nine with 100·p + 10·r + c + 1 in them, so that each cell is known by its number. */
const PATTERNS = [0, 1, 2].map((p) => [0, 1, 2].map((r) => [0, 1, 2].map((c) => 100 * p + 10 * r + c + 1)));

const column = (values: readonly unknown[]) => values.map((value) => [value]);
const H1_NAMES = column(H1.map((_, i) => `component ${i + 1}`));
const H1_US = column(H1.map(({ u }) => u));
const H1_DOFS = column(H1.map(({ dof }) => dof));

/** Volts; of the example in JCGM 100:2008, H.2 (from memory; its printed mean and s come out). */
const GUM_VOLTAGES = [5.007, 4.994, 5.005, 4.99, 4.999];

/**
 * Known values of every function. The first case of each is a plain complete call: other tests change one of
 * its arguments at a time.
 */
export const CASES: Readonly<Record<string, readonly Case[]>> = {
  IMAGESIZE: IMAGES.flatMap(({ name, known, length, unit, aspect, width, height, area, source }) =>
    [width, height, undefined, area].flatMap((value, row) =>
      value === undefined
        ? []
        : [
            {
              name,
              args: [known, length, aspect, unit],
              expect: { cell: [row, 1], printed: value },
              source,
            } as Case,
          ],
    ),
  ),
  REPEATABILITY: [
    {
      name: 'five voltages: s of the mean 0.0032 V, mean 4.9990 V: 0.0032 × √5 ÷ 4.999',
      args: [column(GUM_VOLTAGES)],
      expect: '0.0014',
      source: 'JCGM 100:2008, H.2 (from memory)',
    },
    arithmetic('9, 10 and 11: 1 ÷ 10', [column([9, 10, 11])], '0.1'),
  ],
  ERRORLIMIT: [
    {
      name: '1, 2 and 3 % too much: 2 % + 4.53 × 1 % ÷ √3',
      args: [column([101, 102, 103]), column([100, 100, 100]), 0],
      expect: '0.0461',
      source: 't for ν = 2 at 95.45 %: JCGM 100:2008, table G.2 (4.53)',
    },
    {
      name: '2 % too much, no scatter, ± 3 %: 2 % + 2.00 × 3 % ÷ √3',
      args: [column([102, 51]), column([100, 50]), 0.03],
      expect: '0.0546',
      source: 'JCGM 100:2008, 4.3.7 and table G.2',
    },
    arithmetic('too little counts alike', [column([98, 49]), column([100, 50])], '0.02'),
  ],
  FITTEDOUTPUT: [
    {
      name: 'E = 1000 · (1 − 0.4 r²): 1000 · (1 − 0.4 · 2/3), where nine points give 762.96',
      args: [
        [
          [1000 - 3200 / 9, 1000 - 1600 / 9, 1000 - 3200 / 9],
          [1000 - 1600 / 9, 1000, 1000 - 1600 / 9],
          [1000 - 3200 / 9, 1000 - 1600 / 9, 1000 - 3200 / 9],
        ],
        1,
        'lx',
        1,
        1,
        0,
      ],
      expect: '733.3333',
      source: 'the integral of the paraboloid over the square, by hand',
    },
    arithmetic('even light', [nine(500), 2], '1000'),
    {
      name: 'E = 100 + 60 u²v², u and v from 0 to 1: 100 + 60 ÷ 9',
      args: [[1, 3, 5].map((v) => [1, 3, 5].map((u) => 100 + 60 * (u / 6) ** 2 * (v / 6) ** 2)), 1],
      expect: '106.6667',
      source: 'the integral of u²v² over the unit square is 1/9, by hand',
    },
  ],
  IMAGEAREA: [
    arithmetic('1.6 m × 1.2 m', [1.6, 1.2, 'm'], '1.92'),
    arithmetic('metres if left out', [1.6, 1.2], '1.92'),
    arithmetic('5 ft × 3 ft: 15 × 0.3048²', [5, 3, 'ft'], '1.3935456'),
    arithmetic('160 cm × 120 cm', [160, 120, 'cm'], '1.92'),
    arithmetic('100 in × 50 in: 5000 × 0.0254²', [100, 50, 'in'], '3.2258'),
  ],
  FOURSIDEDAREA: FOUR_SIDES.map((row) => printed(row, [...row.sides, 'm'])),
  POINTS: [
    {
      name: 'point 1 from the left: 160 ÷ 6',
      args: ['9', 1.6, 1.2, 'm'],
      expect: { cell: [1, 2], printed: '26.6666667' },
      source: '1/6 of the width (ISO/IEC 21118 as retold)',
    },
    {
      name: 'point 1 from the top: 120 ÷ 6',
      args: ['9', 1.6, 1.2],
      expect: { cell: [1, 3], printed: '20.0000000' },
      source: '1/6 of the height',
    },
    {
      name: 'point 9 from the left',
      args: [9, 160, 120, 'cm'],
      expect: { cell: [9, 2], printed: '133.3333333' },
      source: '5/6 of the width',
    },
    {
      name: 'point 10 from the left',
      args: ['13', 1.6, 1.2],
      expect: { cell: [10, 2], printed: '8.0000000' },
      source: '5 % of the width (IEC 61947-1, from memory)',
    },
    {
      name: 'point 13 from the top',
      args: ['13', 1.6, 1.2],
      expect: { cell: [13, 3], printed: '114.0000000' },
      source: '95 % of the height (IEC 61947-1, from memory)',
    },
  ],
  ILLUMINANCE: [
    {
      name: 'a meter showing 248 on its × 10 range reads 2480 lx',
      args: [248, 'lx', 10, 1],
      expect: '2480',
      source: 'common practice',
    },
    arithmetic('lux, × 1 and no correction if left out', [248], '248'),
    { name: '10 fc', args: [10, 'fc'], expect: '107.6391', source: 'NIST SP 811, appendix B.8' },
    arithmetic('a correction multiplies', [500, 'lx', 1, 1.0387], '519.35'),
  ],
  FINDINGS: [
    {
      name: 'a good grid',
      args: ['white', WHITE, 'lx', 1, 1, 0, 1],
      expect: { text: 'nothing to remark' },
      source: 'regression',
    },
    {
      name: 'nothing typed yet: blanks arrive as 0',
      args: ['white', nine(0)],
      expect: { text: 'no readings yet' },
      source: 'regression',
    },
  ],
  MEANILLUMINANCE: [
    printed(results.mean, [WHITE, 'lx', 1, 1, 0]),
    arithmetic('ambient 5 lx off', [WHITE, 'lx', 1, 1, 5], '866.6666667'),
    arithmetic('in footcandles: 7845 ÷ 9 ÷ 0.3048²', [WHITE, 'fc'], '9382.541913'),
  ],
  OUTPUT: [
    printed(results.output, [WHITE, AREA, 'lx', 1, 1, 0]),
    arithmetic('lux and × 1 if left out', [WHITE, AREA], '1255.2'),
    arithmetic('× 10 range', [WHITE, AREA, 'lx', 10], '12552.0'),
    arithmetic('range factors one by one', [WHITE, AREA, 'lx', nine(10)], '12552.0'),
    arithmetic('a calibration factor of 1.02', [WHITE, AREA, 'lx', 1, 1.02], '1280.304'),
    arithmetic('ambient 5 lx: 5 × 1.44 lm less', [WHITE, AREA, 'lx', 1, 1, 5], '1248.0'),
    arithmetic('ambient point by point', [WHITE, AREA, 'lx', 1, 1, nine(5)], '1248.0'),
    arithmetic('a factor in a single cell', [WHITE, AREA, 'lx', [[10]], 1, [[5]]], '12544.8'),
  ],
  COLOUROUTPUT: [
    arithmetic(
      '(200 + 700 + 80) lx × 2 m²',
      [nine(200), nine(700), nine(80), 2, 'lx', 1, 1, 1, 1, 1, 1, 0],
      '1960',
    ),
    arithmetic('optional arguments left out', [nine(200), nine(700), nine(80), 2], '1960'),
    arithmetic(
      'own ranges: (2000 + 700 + 8000) × 2',
      [nine(200), nine(700), nine(80), 2, 'lx', 10, 1, nine(100)],
      '21400',
    ),
    arithmetic(
      'own corrections: (210 + 700 + 92) × 2',
      [nine(200), nine(700), nine(80), 2, 'lx', 1, 1, 1, 1.05, 1, 1.15],
      '2004.0',
    ),
    arithmetic(
      'ambient of 5 lx comes off three times',
      [nine(200), nine(700), nine(80), 2, 'lx', 1, 1, 1, 1, 1, 1, 5],
      '1930',
    ),
  ],
  TILED: [
    {
      name: 'red, top left: pattern A',
      args: [...PATTERNS, 'red'],
      expect: { cell: [0, 0], printed: '1' },
      source: '(0 + 0 + 0) mod 3 = 0, by hand',
    },
    {
      name: 'red, top centre: pattern C',
      args: [...PATTERNS, 'red'],
      expect: { cell: [0, 1], printed: '202' },
      source: '(0 + 1 + 2) mod 3 = 0, by hand',
    },
    {
      name: 'green, bottom left: pattern C',
      args: [...PATTERNS, 'green'],
      expect: { cell: [2, 0], printed: '221' },
      source: '(2 + 0 + 2) mod 3 = 1, by hand',
    },
    {
      name: 'blue, middle centre: pattern A',
      args: [...PATTERNS, 'blue'],
      expect: { cell: [1, 1], printed: '12' },
      source: '(1 + 1 + 0) mod 3 = 2, by hand',
    },
  ],
  RATIO: [
    {
      name: 'colour near 800 lm beside white near 2300 lm is about 0.35',
      args: [800, 2300],
      expect: '0.35',
      source: 'common practice; 800 ÷ 2300',
    },
    { name: 'equal figures are 1', args: [2300, 2300], expect: '1.000000', source: 'common practice' },
  ],
  BALANCE: [
    {
      name: 'red share',
      args: [500, 1500, 500, 'BT.709'],
      expect: { cell: [1, 1], printed: '0.2000000' },
      source: 'plain arithmetic',
    },
    {
      name: 'BT.709 if left out',
      args: [500, 1500, 500],
      expect: { cell: [2, 2], printed: '0.7152' },
      source: 'ITU-R BT.709',
    },
    {
      name: 'difference to the standard',
      args: [500, 1500, 500, 'BT.709'],
      expect: { cell: [3, 3], printed: '0.1278' },
      source: '0.2 − 0.0722, ITU-R BT.709',
    },
  ],
  STANDARDSHARE: COLOUR_SHARES.flatMap(({ standard, full, source }) =>
    (['red', 'green', 'blue'] as const).map((primary, i) => ({
      name: `${standard} ${primary}`,
      args: [standard, primary],
      expect: full[i]!,
      source,
    })),
  ),
  UNIFORMITY: [
    printed(results.minMax, [WHITE, 'min/max', 'lx', 1, 1, 0]),
    printed(results.minMax, [WHITE]),
    printed(results.minMean, [WHITE, 'min/mean']),
    arithmetic('ambient 5 lx: 800 ÷ 995', [WHITE, 'min/max', 'lx', 1, 1, 5], '0.8040201005'),
  ],
  DEVIATION: [
    printed(results.minus, [WHITE, CORNERS, 'lx', 1, 1, 1, 0, 0, 'minus']),
    printed(results.minus, [WHITE, CORNERS]),
    printed(results.plus, [WHITE, CORNERS, null, null, null, null, null, null, 'plus']),
    arithmetic(
      'corners on a × 10 range',
      [
        WHITE,
        [
          [74.2, 75.1],
          [73.5, 74.8],
        ],
        'lx',
        1,
        10,
      ],
      '-0.15678776',
    ),
  ],
  CORNERS: [
    printed(results.corners, [WHITE, CORNERS, 'lx', 1, 1, 1, 0, 0]),
    arithmetic(
      'ambient 4 lx at the centre and the corners: 740 ÷ 996',
      [WHITE, CORNERS, 'lx', 1, 1, 1, 4, 4],
      '0.7429718876',
    ),
  ],
  CONTRAST: [
    arithmetic('500 over 0.5', [nine(500), nine(0.5), 0.1, 'lx', 1, 1, 1, 0], '1000.00'),
    {
      name: 'black at one step of the display',
      args: [nine(500), nine(0.1), 0.1],
      expect: { text: 'at least 5000' },
      source: '500 ÷ 0.1; "at least" because black may be nothing',
    },
    {
      name: 'black of 0 on the display',
      args: [nine(500), nine(0), 0.1, 'lx', 1, 1, 1, 0, 9],
      expect: { text: 'at least 5000' },
      source: '500 ÷ 0.1',
    },
    arithmetic(
      'ambient taken off both: 500 over 0.5',
      [nine(505), nine(5.5), 0.1, 'lx', 1, 1, 1, 5],
      '1000.00',
    ),
    arithmetic('as seen, ambient left in: 505 over 5.5', [nine(505), nine(5.5), 0.1], '91.818182'),
    arithmetic('black on its own range: 500 over 5', [nine(500), nine(0.5), 0.1, 'lx', 1, 10], '100.000'),
  ],
  CHECKERBOARD: [
    arithmetic('405 over 1.5 lx', [BOARD, 'white', 0.1, 'lx', 1, 1, 0], '270.00'),
    arithmetic('black at the top left', [[...BOARD.slice(1), BOARD[0]!], 'black', 0.1], '270.00'),
    arithmetic('ambient 1 lx off: 404 over 0.5', [BOARD, 'white', 0.1, 'lx', 1, 1, 1], '808.00'),
    {
      name: 'black within a step',
      args: [BOARD, 'white', 2],
      expect: { text: 'at least 202' },
      source: '405 ÷ 2 = 202.5, rounded down',
    },
    arithmetic(
      'equal black of 0.4 in every tile',
      [BOARD.map((row, r) => row.map((_, c) => ((r + c) % 2 ? 0.4 : 100))), 'white', 0.1],
      '250.000',
    ),
  ],
  LUMINANCE: LUMINANCES.map((row) => printed(row, [row.lux, row.gain, row.unit])),
  DRIFT: [
    arithmetic('1000 to 985', [1000, 985], '-0.015000'),
    arithmetic('no change', [812, 812], '0.000000'),
  ],
  BUDGET: [
    {
      name: 'largest share of GUM H.1: 625 ÷ 1002.71',
      args: [
        H1_NAMES,
        column(H1.map(({ u }) => u)),
        column(H1.map(() => 'normal')),
        column(H1.map(() => 1)),
        H1_DOFS,
        0.99,
      ],
      expect: { cell: [1, 8], printed: '0.6233' },
      source: 'contributions of GUM annex H.1, by arithmetic',
    },
  ],
  COMBINEDU: [
    { name: 'GUM H.1, as printed', args: [H1_US], expect: '32', source: 'GUM annex H.1 (GTC package)' },
    arithmetic('GUM H.1 from its rounded contributions: √1002.71', [H1_US], '31.665596'),
    arithmetic('3-4-5', [[[3], [4]]], '5.000000'),
  ],
  EFFECTIVEDOF: [
    {
      name: 'GUM H.1: 1002.71² ÷ 60 014.8',
      args: [H1_US, H1_DOFS],
      expect: '16.753',
      source: 'contributions of GUM annex H.1, by arithmetic (16.752 from unrounded ones, GTC package)',
    },
    {
      name: 'one part known well',
      args: [
        [[0.57], [0.25]],
        [[9], ['∞']],
      ],
      expect: '12.8',
      source: 'course example carried by the suncal package',
    },
    {
      name: 'all parts known well',
      args: [
        [[3], [4]],
        [['∞'], ['∞']],
      ],
      expect: { text: '∞' },
      source: 'limit of the formula',
    },
  ],
  COVERAGEFACTOR: [
    { name: 't₉₉ of 16', args: [16, 0.99], expect: '2.92', source: 'NIST TN 1297 table B.1' },
    {
      name: 'degrees of freedom are cut down: 16.75 is 16',
      args: [16.75, 0.99],
      expect: '2.92',
      source: 'NIST TN 1297 table B.1; GUM G.4.1',
    },
    { name: '95.45 % if left out', args: [10], expect: '2.28', source: 'NIST TN 1297 table B.1' },
    { name: 'infinite', args: ['∞', 0.95], expect: '1.960', source: 'NIST TN 1297 table B.1' },
  ],
  EXPANDEDU: [
    {
      name: 'GUM H.1 at 99 %: 2.9208 × 31.6656',
      args: [H1_US, H1_DOFS, 0.99],
      expect: '92.49',
      source: 'contributions of GUM annex H.1; t₉₉(16) in full digits',
    },
  ],
  DIFFERENCES: [
    {
      name: 'one meter: 3 % of the 300 lm that runs of 3000 and 2700 lm differ by, ÷ √3; 3 and 4 lm of their own',
      args: [
        [
          [90 / Math.sqrt(3), 81 / Math.sqrt(3)],
          [3, 4],
        ],
        [
          ['∞', '∞'],
          ['∞', '∞'],
        ],
        [[1, 1]],
        [[1, 2]],
        [
          [1, 0, 0],
          [0, 1, 0],
        ],
      ],
      expect: { cell: [0, 1], printed: '14.42' },
      source: 'GUM eq. (16) by hand: u² = 27 + 9 + 16; k = 2.0000 for 95.45 %',
    },
    {
      name: 'two meters: nothing is shared',
      args: [[[3, 4]], [['∞', '∞']], [[1, 2]], [[1, 1]], [[1, 0, 0]]],
      expect: { cell: [1, 0], printed: '10.00' },
      source: '2.0000 × √(3² + 4²) by hand',
    },
    {
      name: 'ν = 5⁴ ÷ (3⁴ ÷ 9 + 4⁴ ÷ 9) = 16.69, cut to 16',
      args: [[[3, 4]], [[9, 9]], [[1, 2]], [[1, 1]], [[0, 0, 0]], 0.99],
      expect: { cell: [0, 1], printed: '14.60' },
      source: 'Welch–Satterthwaite by hand; t₉₉(16) = 2.92 (GUM table G.2)',
    },
    {
      name: 'a run does not differ from itself',
      args: [[[3, 4]], [[9, 9]], [[1, 2]], [[1, 1]], [[0, 0, 0]]],
      expect: { cell: [1, 1], printed: '0' },
      source: 'plain arithmetic',
    },
  ],
  CONFORMITY: [
    {
      name: 'breakdown voltage −5.47 V, u 0.05 V, limit −5.40 V: Φ(1.4)',
      args: [-5.47, 0.05, null, -5.4],
      expect: '0.919243',
      source: 'example of JCGM 106 (from memory); Φ(1.4) from a table of the normal distribution',
    },
    { name: 'on the limit: one half', args: [1840, 59, 1840], expect: '0.500000', source: 'symmetry' },
    {
      name: 'both limits, one standard uncertainty away: Φ(1) − Φ(−1)',
      args: [1e-300, 1, -1, 1],
      expect: '0.682689',
      source: 'table of the normal distribution',
    },
  ],
  DECISION: [
    // Lower limit T = 1840, U = 118: the exact limits belong where the rule of the sheet writes them.
    ...(
      [
        [2231, 'pass'],
        [1958, 'pass'],
        [1957.9, 'conditional pass'],
        [1840, 'conditional pass'],
        [1839.9, 'conditional fail'],
        [1722, 'conditional fail'],
        [1721.9, 'fail'],
      ] as const
    ).map(
      ([y, text]): Case => ({
        name: `${y} against 1840, U 118: ${text}`,
        args: [y, 118, 'guard band U: four outcomes', 1840],
        expect: { text },
        source: 'ILAC-G8:09/2019 clause 4.2.3, mirrored for a lower limit',
      }),
    ),
  ],
  LIMIT: [
    {
      name: '80 % of 2300 lm',
      args: [2300, 0.8],
      expect: '1840.0000',
      source: 'plain arithmetic; 80 % from memory of ISO/IEC 21118',
    },
  ],
  REPORT: [
    {
      name: 'two digits of U',
      args: [2231.4, 118.2, 'lm'],
      expect: { text: '(2230 ± 120) lm' },
      source: 'GUM 7.2.6, by hand',
    },
  ],
  ...PROCUREMENT_CASES,
  ...BATCH_CASES,
};

/** The first case's arguments: a complete good call. */
export function plainArgs(id: string): readonly unknown[] {
  const [first] = CASES[id] ?? [];
  if (!first) throw new Error(`No cases for ${id}: add known values with their source.`);
  return first.args;
}
