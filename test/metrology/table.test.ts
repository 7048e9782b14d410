import { describe, expect, it } from 'vitest';
import { budgetTable, type TableRow } from '../../src/metrology/table';
import { got, problemsOf } from './outcome';

const INFINITE = Number.POSITIVE_INFINITY;
const HEAD = [
  'component',
  'half-width',
  'distribution',
  'divisor',
  'u',
  'sensitivity',
  'ν',
  'contribution',
  'share',
];
const total = (label: string, value: unknown) => [label, '', '', '', '', '', '', value, ''];
const near = (value: number, digits = 12) => expect.closeTo(value, digits);

const REPEATS: TableRow = {
  label: 'repeats',
  halfWidth: 6,
  distribution: 'normal',
  sensitivity: -2,
  dof: 4,
};
const METER: TableRow = {
  label: 'meter',
  halfWidth: 4 * Math.sqrt(3),
  distribution: 'rectangular',
  sensitivity: 1,
  dof: INFINITE,
};
const ROOM: TableRow = {
  label: 'room',
  halfWidth: 6 * Math.sqrt(2),
  distribution: 'u-shaped',
  sensitivity: 0.5,
  dof: INFINITE,
};

describe('a budget as a table of cells', () => {
  it('has a row for each component, then u, ν, k and U (on paper: 12² + 4² + 3² = 13²)', () => {
    // ν = 13⁴ ÷ (12⁴ ÷ 4) = 28561 ÷ 5184 = 5.51, cut to 5 for k: 2.65 (NIST TN 1297, table B.1; scipy 1.17.1: 2.648654).
    const k = 2.648654;
    expect(got(budgetTable([REPEATS, METER, ROOM], 0.9545))).toEqual([
      HEAD,
      ['repeats', 6, 'normal', 1, 6, -2, 4, near(12), near(144 / 169)],
      ['meter', METER.halfWidth, 'rectangular', near(Math.sqrt(3)), near(4), 1, '∞', near(4), near(16 / 169)],
      ['room', ROOM.halfWidth, 'u-shaped', near(Math.SQRT2), near(6), 0.5, '∞', near(3), near(9 / 169)],
      total('combined standard uncertainty', near(13)),
      total('effective degrees of freedom', near(28561 / 5184)),
      total('coverage factor', near(k, 5)),
      total('expanded uncertainty', near(13 * k, 4)),
    ]);
  });

  it('of nothing uncertain has no shares, no limit to ν, and U = 0', () => {
    // k is 2 to four places: table B.1 has 2.000 for infinite ν.
    expect(got(budgetTable([{ ...REPEATS, halfWidth: 0, dof: 1 }], 0.9545))).toEqual([
      HEAD,
      ['repeats', 0, 'normal', 1, 0, -2, 1, 0, 0],
      total('combined standard uncertainty', 0),
      total('effective degrees of freedom', '∞'),
      total('coverage factor', near(2, 4)),
      total('expanded uncertainty', 0),
    ]);
  });

  it('says all that is wrong at once, with the name and the row of each', () => {
    const wrong = { ...METER, halfWidth: -1, distribution: 'square', dof: 0.5 };
    expect(problemsOf(budgetTable([REPEATS, wrong], 0.9545))).toEqual([
      {
        kind: 'invalid',
        code: 'negative',
        where: 'half-width',
        message: 'The half-width of "meter" (row 2) must not be negative; it is -1.',
      },
      {
        kind: 'invalid',
        code: 'choice',
        where: 'distribution',
        message:
          'The distribution of "meter" (row 2) must be one of rectangular, triangular, normal, u-shaped; it is "square".',
      },
      {
        kind: 'invalid',
        code: 'out-of-bounds',
        where: 'degrees of freedom',
        message: 'The degrees of freedom of "meter" (row 2) must be at least 1; they are 0.5.',
      },
    ]);
  });

  it('refuses a level that is none', () =>
    expect(problemsOf(budgetTable([METER], 1)).map(({ message }) => message)).toEqual([
      'The level of confidence must lie between 0 and 1, both excluded; it is 1.',
    ]));
});
