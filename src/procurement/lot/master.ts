import { CODE_LETTERS, type CodeLetter, SAMPLE_SIZES } from './letter';

/**
 * Acceptance quality limits in percent nonconforming that plans are kept for. 0.65 to 6.5 are held against a
 * published copy of MIL-STD-105E table II-A; 0.25 and 0.4 follow the same diagonals, from memory.
 */
export const AQLS = [0.25, 0.4, 0.65, 1, 1.5, 2.5, 4, 6.5] as const;
export type Aql = (typeof AQLS)[number];

/**
 * The master table for single sampling, normal inspection, is one diagonal, moved one letter for each step of
 * the AQL, because sample size and AQL grow by the same factor. These are its cells in order; an arrow
 * points to the next plan with a smaller (up) or larger (down) sample. Before the first cell all arrows point
 * down, after the last one up.
 */
const DIAGONAL = [0, 'up', 'down', 1, 2, 3, 5, 7, 10, 14, 21] as const;

/** The letter at which the diagonal begins for an AQL of 1. */
const START = CODE_LETTERS.indexOf('E') + AQLS.indexOf(1);

function cell(letter: number, aql: number): number | 'up' | 'down' {
  const place = letter + aql - START;
  if (place < 0) return 'down';
  return DIAGONAL[place] ?? 'up';
}

/** A plan of the master table: sample size, acceptance number; rejection is one more. */
export interface MasterPlan {
  readonly letter: CodeLetter;
  readonly sampleSize: number;
  readonly accept: number;
}

/** The plan for a code letter and an AQL, arrows followed. */
export function masterPlan(letter: CodeLetter, aql: Aql): MasterPlan {
  const column = AQLS.indexOf(aql);
  let row = CODE_LETTERS.indexOf(letter);
  for (;;) {
    const found = cell(row, column);
    if (typeof found === 'number') {
      const planLetter = CODE_LETTERS[row]!;
      return { letter: planLetter, sampleSize: SAMPLE_SIZES[planLetter], accept: found };
    }
    row += found === 'up' ? -1 : 1;
  }
}
