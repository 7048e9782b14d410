import { EXACT_FALL, HOURS, NOTED_FALL } from '../references/ageing';
import { LOT_PROBABILITIES, STREAM_PROBABILITIES } from '../references/lots';
import { TASK_CONTRASTS } from '../references/need';
import type { Case } from './case';

const arithmetic = (name: string, args: readonly unknown[], expect: Case['expect']): Case => ({
  name,
  args,
  expect,
  source: 'by hand',
});
const column = (values: readonly unknown[]) => values.map((value) => [value]);

const BRIGHTER = [column([0, 500, 1000]), column([800, 805, 810])] as const;
/** 1000 lm falling by e^−0.1 in each 1000 h. */
const SERIES = [column([0, 1000, 2000]), column([1000, 1000 * Math.exp(-0.1), 1000 * Math.exp(-0.2)])];
const NOTED = [column(HOURS), column(NOTED_FALL.outputs)];
const PLAN_SOURCE = 'MIL-STD-105E as NIBS "AC-TABLE" and AQLSchemes carry it';
const SCIPY = 'hypergeometric, scipy 1.17.1';

/** Known values of the functions of buying. */
export const PROCUREMENT_CASES: Readonly<Record<string, readonly Case[]>> = {
  TASKCONTRAST: TASK_CONTRASTS.map(({ task, printed, source }) => ({
    name: task,
    args: [task],
    expect: printed,
    source,
  })),
  NEED: [
    // 14 × 50 = 700 lx ÷ (1 − 15 ÷ 150) = 777.78 lx, more than π × 80 = 251 lx; × 2 m² ÷ (0.7 × 0.8).
    arithmetic(
      'contrast 15 in 50 lx on 2 m², C₀ 150, reserves 0.7 and 0.8',
      [2, 50, 15, 80, 150, 1, 0.7, 0.8],
      '2777.7778',
    ),
    arithmetic('14 × 50 lx × 2 m²', [2, 50, 15], '1400'),
    arithmetic('π × 80 lx × 2 m²', [2, 50, null, 80], '502.6548'),
    arithmetic('gain 1.3 divides: ÷ 1.3', [2, 50, 0, 80, 0, 1.3], '386.6576'),
  ],
  NEEDTABLE: [
    arithmetic('colour at the same figure', [2, 50, 15, 80, 150, 1, 0.7, 0.8, 1], {
      cell: [1, 1],
      printed: '2777.7778',
    }),
    arithmetic('colour at 0.8 of white', [2, 50, 15, 0, 0, 1, 1, 1, 0.8], { cell: [1, 1], printed: '1120' }),
    arithmetic('contrast at the end is the wanted one', [2, 50, 15, 80, 150, 1, 0.7, 0.8], {
      cell: [6, 1],
      printed: '15.0000000',
    }),
  ],
  WHATIF: [
    arithmetic('14 × 50 × 2', [[[50], [100]], [[2, 4]], 15, 20, 400, 1, 1, 1], {
      cell: [1, 1],
      printed: '1454.5455',
    }),
    arithmetic('14 × 100 × 4', [[[50], [100]], [[2, 4]], 15], { cell: [2, 2], printed: '5600' }),
  ],
  CONTRASTREACHED: [
    // E = 777.78 lx: (777.78 + 50) ÷ (777.78 ÷ 150 + 50).
    arithmetic('back from the need', [14000 / 9, 2, 50, 150], '15.0000000'),
    arithmetic('(700 + 50) ÷ 50', [1400, 2, 50], '15'),
  ],
  OFFERSTATE: [
    arithmetic('both reached', [2500, 2500, 3200, 2500], { text: 'meets' }),
    arithmetic('white alone reached', [2500, 2500, 3200, 1800], { text: 'short' }),
    arithmetic('colour not stated', [2500, 2500, 3200, ''], { text: 'ask' }),
    arithmetic('short of white, colour not stated', [2500, 2500, 2400, null], { text: 'short' }),
  ],
  COSTPERLUMEN: [arithmetic('1200 ÷ 3000', [1200, 3000], '0.4')],
  REPLACEMENTS: [
    arithmetic('10 000 h on sources of 4000 h: three sources, the first is in', [10_000, 4000], '2'),
    arithmetic('12 000 h on sources of 4000 h: the third lasts to the end', [12_000, 4000], '2'),
    arithmetic('none where one lasts', [8000, 20_000], '0'),
  ],
  LIFECOST: [
    arithmetic(
      '1200 + 0.3 kW × 8000 h × 0.30, the source lasts',
      [1200, 300, 8000, 0.3, 20_000, 150],
      '1920',
    ),
    arithmetic('1200 + 0.3 kW × 10 000 h × 0.30 + 2 × 150', [1200, 300, 10_000, 0.3, 4000, 150], '2400'),
  ],
  COSTPERLUMENHOUR: [arithmetic('2400 ÷ (3000 × 10 000)', [2400, 3000, 10_000], '0.00008')],
  CODELETTER: [
    { name: '60 units', args: [60], expect: { text: 'E' }, source: PLAN_SOURCE },
    { name: '500 units', args: [500], expect: { text: 'H' }, source: PLAN_SOURCE },
  ],
  SAMPLESIZE: [
    { name: '60 units at 2.5: arrow down', args: [60, 2.5], expect: '20', source: PLAN_SOURCE },
    { name: '60 units at 4', args: [60, 4], expect: '13', source: PLAN_SOURCE },
    { name: '8 units at 1: all', args: [8, 1], expect: '8', source: PLAN_SOURCE },
    { name: '14 units at 1: 13 of 14', args: [14, 1], expect: '13', source: PLAN_SOURCE },
  ],
  ACCEPTNUMBER: [
    { name: '60 units at 2.5', args: [60, 2.5], expect: '1', source: PLAN_SOURCE },
    { name: '60 units at 1', args: [60, 1], expect: '0', source: PLAN_SOURCE },
    { name: '5000 units at 4', args: [5000, 4], expect: '14', source: PLAN_SOURCE },
  ],
  REJECTNUMBER: [
    { name: '60 units at 2.5', args: [60, 2.5], expect: '2', source: PLAN_SOURCE },
    {
      name: 'K reduced at 1.0: 50, accepted with 1, rejected with 4',
      args: [2000, 1, 'II', 'reduced'],
      expect: '4',
      source: 'AQLSchemes 1.7-2',
    },
  ],
  SWITCHING: [
    {
      name: 'five accepted lots end tightened inspection',
      args: ['tightened'],
      expect: { cell: [1, 1], text: 'normal' },
      source: 'ISO 2859-1:1999, 9.3.2 (from memory)',
    },
  ],
  ACCEPTPROBABILITY: LOT_PROBABILITIES.map(([N, n, c, D, printed]) => ({
    name: `N ${N}, n ${n}, c ${c}, D ${D}`,
    args: [N, n, c, D],
    expect: printed,
    source: SCIPY,
  })),
  STREAMPROBABILITY: STREAM_PROBABILITIES.map(([n, c, p, printed, source]) => ({
    name: `n ${n}, c ${c}, p ${p}`,
    args: [n, c, p],
    expect: printed,
    source,
  })),
  ACCEPTCURVE: [
    {
      name: 'N 50, n 13, c 1 at D 2',
      args: [50, 13, 1],
      expect: { cell: [3, 2], printed: '0.936327' },
      source: SCIPY,
    },
    {
      name: 'N 50, n 13, c 1 at D 5',
      args: [50, 13, 1],
      expect: { cell: [6, 2], printed: '0.610962' },
      source: SCIPY,
    },
  ],
  RISKPOINTS: [
    // N 10, n 3, c 0: 0.7 at one, 0.0833 at five, 1 ÷ 6 = C(6,3)/C(10,3) at four.
    arithmetic('N 10, n 3, c 0: only a perfect lot is safe', [10, 3, 0], { cell: [1, 1], printed: '0' }),
    arithmetic('N 10, n 3, c 0: five are kept out', [10, 3, 0], { cell: [2, 1], printed: '5' }),
  ],
  LOTVERDICT: [
    { name: 'one of 13 with Ac 1', args: [13, 1, 13, 1], expect: { text: 'accepted' }, source: 'ISO 2859-1' },
    {
      name: 'none of 13 with Ac 1',
      args: [13, 1, 13, 0, 13],
      expect: { text: 'accepted' },
      source: 'ISO 2859-1',
    },
    { name: 'two of 13 with Ac 1', args: [13, 1, 13, 2], expect: { text: 'rejected' }, source: 'ISO 2859-1' },
    { name: 'two of the first 5', args: [13, 1, 5, 2], expect: { text: 'rejected' }, source: 'ISO 2859-1' },
    {
      name: 'one of the first 5',
      args: [13, 1, 5, 1],
      expect: { text: 'not finished' },
      source: 'ISO 2859-1',
    },
  ],
  DRAWSAMPLE: [
    arithmetic('three of three', [column(['S1', 'S2', 'S3']), 3, 'dice 4 2 6'], {
      cell: [3, 0],
      printed: '3',
    }),
    arithmetic('one of three', [column(['S1', 'S2', 'S3']), 1, 426], { cell: [1, 0], printed: '1' }),
  ],
  AGEINGRATE: [
    arithmetic('10 % of e a thousand hours', SERIES, '0.000100000000'),
    { name: 'noted values', args: NOTED, expect: NOTED_FALL.rate, source: 'scipy 1.17.1' },
  ],
  AGEINGHOURS: [
    arithmetic('ln(1 ÷ 0.7) ÷ 10⁻⁴', [...SERIES, 0.7, 1000], '3566.749439'),
    { name: 'noted values, 70 %', args: [...NOTED, 0.7, 1], expect: NOTED_FALL.l70, source: 'scipy 1.17.1' },
    { name: 'noted values, 50 %', args: [...NOTED, 0.5, 1], expect: NOTED_FALL.l50, source: 'scipy 1.17.1' },
    arithmetic('ln(1 ÷ 0.2) ÷ 10⁻⁴ = 16 094 h is beyond 6 × 2000 h', [...SERIES, 0.2], {
      text: 'more than 12000',
    }),
    arithmetic('brighter each time', [column([0, 1, 2]), column([1000, 1001, 1002]), 0.7], {
      text: 'no fall seen',
    }),
  ],
  AGEINGHOURSTO: [
    arithmetic('ln 2 ÷ 10⁻⁴', [...SERIES, 500, 1000], '6931.471806'),
    arithmetic('brighter each time, and below it all the same', [...BRIGHTER, 900], '0'),
    {
      name: 'to 0.7 where the initial value is 1',
      args: [column(HOURS), column(EXACT_FALL.printed.map(Number)), 0.7, 1],
      // The points are rounded to six digits, hence only so many here.
      expect: '18331',
      source: 'ln(B ÷ 0.7) ÷ α with B 1.01, α 2·10⁻⁵',
    },
  ],
  AGEINGTABLE: [
    arithmetic('hours to 70 %', [...SERIES, 500, 1000, 0.95], { cell: [4, 1], printed: '3566.749439' }),
    arithmetic('hours to the need', [...SERIES, 500, 1000, 0.95], { cell: [6, 1], printed: '6931.471806' }),
    arithmetic('6 × 2000 h', [...SERIES, 500], { cell: [7, 1], printed: '12000' }),
    arithmetic('the need was never met', [...BRIGHTER, 900], { cell: [6, 1], printed: '0' }),
  ],
};
