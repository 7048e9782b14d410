/**
 * Single sampling, normal inspection, general level II, as printed. A cell is "n,Ac" with arrows followed.
 * 1.0, 2.5 and 4.0: MIL-STD-105E / ANSI Z1.4 as two independent copies carry them (NIBS "AC-TABLE" and the CRAN
 * package AQLSchemes); that ISO 2859-1:1999 table 2-A is the same is from memory.
 */
export const PLANS: readonly (readonly [
  lots: readonly [number, number],
  letter: string,
  ...cells: string[],
])[] = [
  [[2, 8], 'A', '13,0', '5,0', '3,0'],
  [[9, 15], 'B', '13,0', '5,0', '3,0'],
  [[16, 25], 'C', '13,0', '5,0', '3,0'],
  [[26, 50], 'D', '13,0', '5,0', '13,1'],
  [[51, 90], 'E', '13,0', '20,1', '13,1'],
  [[91, 150], 'F', '13,0', '20,1', '20,2'],
  [[151, 280], 'G', '50,1', '32,2', '32,3'],
  [[281, 500], 'H', '50,1', '50,3', '50,5'],
  [[501, 1200], 'J', '80,2', '80,5', '80,7'],
  [[1201, 3200], 'K', '125,3', '125,7', '125,10'],
  [[3201, 10_000], 'L', '200,5', '200,10', '200,14'],
];
export const PLAN_AQLS = [1, 2.5, 4] as const;

/**
 * The master table as it stands in NIBS "AC-TABLE" (table 1-A there, developed from MIL-STD-105E tables I and
 * II-A): rejection numbers by letter for AQL 0.65, 1.0, 1.5, 2.5, 4.0 and 6.5; v and ^ are its arrows to the
 * first plan below and above.
 */
export const MASTER_AQLS = [0.65, 1, 1.5, 2.5, 4, 6.5] as const;
export const MASTER: readonly (readonly [largestLot: number, letter: string, size: number, cells: string])[] =
  [
    [8, 'A', 2, 'v v v v v 1'],
    [15, 'B', 3, 'v v v v 1 ^'],
    [25, 'C', 5, 'v v v 1 ^ v'],
    [50, 'D', 8, 'v v 1 ^ v 2'],
    [90, 'E', 13, 'v 1 ^ v 2 3'],
    [150, 'F', 20, '1 ^ v 2 3 4'],
    [280, 'G', 32, '^ v 2 3 4 6'],
    [500, 'H', 50, 'v 2 3 4 6 8'],
    [1200, 'J', 80, '2 3 4 6 8 11'],
    [3200, 'K', 125, '3 4 6 8 11 15'],
    [10_000, 'L', 200, '4 6 8 11 15 22'],
    [35_000, 'M', 315, '6 8 11 15 22 ^'],
    [150_000, 'N', 500, '8 11 15 22 ^ ^'],
    [500_000, 'P', 800, '11 15 22 ^ ^ ^'],
    [Number.POSITIVE_INFINITY, 'Q', 1250, '15 22 ^ ^ ^ ^'],
  ];

/** Acceptance probabilities of one lot, hypergeometric (standard mathematics; digits by scipy 1.17.1). */
export const LOT_PROBABILITIES: readonly (readonly [
  N: number,
  n: number,
  c: number,
  D: number,
  printed: string,
])[] = [
  [10, 3, 0, 1, '0.7'],
  [10, 3, 0, 2, '0.466667'],
  [10, 3, 0, 3, '0.291667'],
  [10, 3, 0, 5, '0.083333'],
  [20, 5, 0, 1, '0.75'],
  [20, 5, 0, 2, '0.552632'],
  [20, 5, 0, 3, '0.399123'],
  [20, 5, 0, 5, '0.193692'],
  [50, 13, 1, 2, '0.936327'],
  [50, 13, 1, 3, '0.838163'],
  [50, 13, 1, 5, '0.610962'],
  [150, 20, 2, 3, '0.997932'],
  [150, 20, 2, 5, '0.982751'],
  [5000, 10, 1, 500, '0.736138'],
  [5000, 10, 1, 1000, '0.375568'],
];

/** Acceptance probabilities of a series of lots, binomial. */
export const STREAM_PROBABILITIES: readonly (readonly [
  n: number,
  c: number,
  p: number,
  printed: string,
  source: string,
])[] = [
  [20, 0, 0.05, '0.358', 'vignette of the CRAN package AcceptanceSampling'],
  [20, 0, 0.15, '0.039', 'vignette of the CRAN package AcceptanceSampling'],
  [20, 0, 0.05, '0.358486', '0.95²⁰, digits by scipy 1.17.1'],
  [20, 0, 0.15, '0.038760', '0.85²⁰, digits by scipy 1.17.1'],
  [80, 7, 0.05, '0.953408', 'plan of the same vignette, digits by scipy 1.17.1'],
  [80, 7, 0.15, '0.072717', 'plan of the same vignette, digits by scipy 1.17.1'],
];
