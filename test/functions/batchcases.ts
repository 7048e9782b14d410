import type { Case } from './case';

/*
 * Two units of a batch, worked by hand. The first: nine readings with the mean 83 on the × 10 range, 2 lx of
 * ambient light, 2.5 m²: (830 − 2) × 2.5 = 2070 lm; uniformity (790 − 2) ÷ (900 − 2). The second lacks a reading.
 */
const READINGS = [
  [80, 84, 82, 86, 90, 84, 80, 82, 79],
  [70, 71, 72, 73, 74, 75, 76, 77, ''],
];
const column = (...values: unknown[]) => values.map((value) => [value]);
const white = (uncertainty: unknown[][], limit: unknown = 1840) => [
  column('K-1', 'K-2'),
  READINGS,
  column(10, 10),
  [[2]],
  2.5,
  column(1),
  column(limit),
  uncertainty,
];
/** U stated as 8 %; or k 2, 5 % shared, 0.5 lx of digits at × 1, 1 lx and a tenth of the ambient light. */
const STATED = column(0.08, 2, 0.05, 0.5, 1, 0.1);
const BUDGET = column('', 2, 0.05, 0.5, 1, 0.1);

/** One unit in four colours: 100, 30, 70 and 8 on the display everywhere, 1 lx of ambient light, 2 m². */
const nine = (value: number) => Array<number>(9).fill(value);
const COLOURS = [
  column('K-3'),
  [[...nine(100), ...nine(30), ...nine(70), ...nine(8)]],
  column(1),
  [[1]],
  2,
  column(1, 1, 1, 1),
  column('', 180),
  [
    ['', ''],
    [2, 2],
    [0.05, 0.05],
    [0.5, 0.5],
    [1, 1],
    [0, 0],
    ['', 0.04],
    ['', 0.01],
    ['', 0.1],
  ],
];

/** The centre of one unit: 182 of white, 38, 112 and 20 of the colours, 2 lx of ambient light; the reference has 200 and 180 lx. */
const CENTRE = [
  column('K-4'),
  [[182, 38, 112, 20]],
  column(1),
  [[2]],
  column(200, 180, '', 1900),
  column(1, 1, 1, 1),
  column(0.8, 0.8),
  [
    ['', ''],
    [2, 2],
    [0.03, 0.03],
    [0.5, 0.5],
    [1, 1],
    [0, 0],
    ['', 0],
    ['', 0],
    ['', 0],
  ],
];

const by = (name: string, args: readonly unknown[], row: number, column: number, printed: string): Case => ({
  name,
  args,
  expect: { cell: [row, column], printed },
  source: 'worked by hand from the readings',
});

export const BATCH_CASES: Readonly<Record<string, readonly Case[]>> = {
  BATCH: [
    by('white light output', white(BUDGET), 0, 1, '2070.000000'),
    // 2 √((0.05 · 2070)² + ((0.5 · 10)² + (1 + 0.1 · 2)²) · 2.5²) = 2 √(10712.25 + 165.25).
    by('U by the budget', white(BUDGET), 0, 2, '208.590508'),
    by('U as stated', white(STATED), 0, 2, '165.600000'),
    by('uniformity', white(STATED), 0, 3, '0.877505568'),
    by('red, (30 − 1) × 2', COLOURS, 0, 10, '58.000000'),
    by('colour, 58 + 138 + 14', COLOURS, 0, 3, '210.000000'),
    // 2 √((0.05 · 210)² + (0.5² + 1²) · 2² + (0.04 · 58)² + (0.01 · 138)² + (0.1 · 14)²).
    by('U of colour', COLOURS, 0, 4, '22.315627'),
    by('ratio, 210 ÷ 198', COLOURS, 0, 5, '1.060606061'),
  ],
  BATCHCENTRE: [
    by('white, 180 ÷ 200', CENTRE, 0, 1, '0.900000000'),
    // 2 √((0.03 · 0.9)² + (0.5² + 1²) ÷ 200²).
    by('its U', CENTRE, 0, 2, '0.055145263'),
    by('colour, (38 + 112 + 20 − 3 · 2) ÷ 180', CENTRE, 0, 3, '0.911111111'),
    by('ratio, 164 ÷ 180', CENTRE, 0, 5, '0.911111111'),
    by('estimate, 164 ÷ 180 of 1900 lm', CENTRE, 0, 10, '1731.111111'),
  ],
};
