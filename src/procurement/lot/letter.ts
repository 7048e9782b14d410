import { bad, good, type Outcome } from '../../photometry/outcome';
import { notWhole } from '../check';

/** Code letters with the sample size each stands for (ISO 2859-1, as in MIL-STD-105E table II-A; no I, no O). */
export const SAMPLE_SIZES = {
  A: 2,
  B: 3,
  C: 5,
  D: 8,
  E: 13,
  F: 20,
  G: 32,
  H: 50,
  J: 80,
  K: 125,
  L: 200,
  M: 315,
  N: 500,
  P: 800,
  Q: 1250,
} as const;

export type CodeLetter = keyof typeof SAMPLE_SIZES;
export const CODE_LETTERS = Object.keys(SAMPLE_SIZES) as CodeLetter[];

/** Largest lot of each letter, general inspection level II (MIL-STD-105E table I; the same in ISO 2859-1 from memory). */
const LARGEST_LOT: readonly (readonly [number, CodeLetter])[] = [
  [8, 'A'],
  [15, 'B'],
  [25, 'C'],
  [50, 'D'],
  [90, 'E'],
  [150, 'F'],
  [280, 'G'],
  [500, 'H'],
  [1200, 'J'],
  [3200, 'K'],
  [10_000, 'L'],
  [35_000, 'M'],
  [150_000, 'N'],
  [500_000, 'P'],
];

/** Code letter of a lot of at least 2 units, general inspection level II. */
export function codeLetter(lotSize: number): Outcome<CodeLetter> {
  const problems = notWhole(lotSize, 'lot size', 2);
  if (problems.length > 0) return bad(...problems);
  return good(LARGEST_LOT.find(([largest]) => lotSize <= largest)?.[1] ?? 'Q');
}
