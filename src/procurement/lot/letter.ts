import { bad, good, type Outcome } from '../../photometry/outcome';
import { notWhole } from '../check';

/** Sample size code letters (ISO 2859-1, as in MIL-STD-105E; no I, no O). S stands for the one plan that only tightened inspection has. */
export const CODE_LETTERS = [
  'A',
  'B',
  'C',
  'D',
  'E',
  'F',
  'G',
  'H',
  'J',
  'K',
  'L',
  'M',
  'N',
  'P',
  'Q',
  'R',
  'S',
] as const;
export type CodeLetter = (typeof CODE_LETTERS)[number];

/** Special levels S-1 to S-4 for small samples, general levels I to III; II unless something else is agreed. */
export const INSPECTION_LEVELS = ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III'] as const;
export type InspectionLevel = (typeof INSPECTION_LEVELS)[number];
export const USUAL_LEVEL: InspectionLevel = 'II';

/** Largest lot of each row and its letters, one a level (MIL-STD-105E table I; ISO 2859-1 table 1 has the same). */
const LETTERS: readonly (readonly [largestLot: number, letters: string])[] = [
  [8, 'AAAAAAB'],
  [15, 'AAAAABC'],
  [25, 'AABBBCD'],
  [50, 'ABBCCDE'],
  [90, 'BBCCCEF'],
  [150, 'BBCDDFG'],
  [280, 'BCDEEGH'],
  [500, 'BCDEFHJ'],
  [1200, 'CCEFGJK'],
  [3200, 'CDEGHKL'],
  [10_000, 'CDFGJLM'],
  [35_000, 'CDFHKMN'],
  [150_000, 'DEGJLNP'],
  [500_000, 'DEGJMPQ'],
  [Number.POSITIVE_INFINITY, 'DEHKNQR'],
];

/** Code letter of a lot of at least 2 units. */
export function codeLetter(lotSize: number, level: InspectionLevel = USUAL_LEVEL): Outcome<CodeLetter> {
  const problems = notWhole(lotSize, 'lot size', 2);
  if (problems.length > 0) return bad(...problems);
  const [, letters] = LETTERS.find(([largest]) => lotSize <= largest)!;
  return good(letters[INSPECTION_LEVELS.indexOf(level)] as CodeLetter);
}
