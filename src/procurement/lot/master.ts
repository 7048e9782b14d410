import { CODE_LETTERS, type CodeLetter } from './letter';

/**
 * Acceptance quality limits, the columns of the master tables: percent nonconforming up to 10, nonconformities per 100
 * units beyond. ISO 2859-1 has these 26.
 */
export const AQLS = [
  0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.15, 0.25, 0.4, 0.65, 1, 1.5, 2.5, 4, 6.5, 10, 15, 25, 40, 65, 100,
  150, 250, 400, 650, 1000,
] as const;
export type Aql = (typeof AQLS)[number];

/** Those that count units, and that forms and sheets offer: the others count faults, of which a unit may have several. */
export const LISTED_AQLS = [
  0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.15, 0.25, 0.4, 0.65, 1, 1.5, 2.5, 4, 6.5, 10,
] as const satisfies readonly Aql[];
export type ListedAql = (typeof LISTED_AQLS)[number];

/** How strictly lots of a series are inspected; which one comes next is told by the switching rules. */
export const SEVERITIES = ['normal', 'tightened', 'reduced'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A plan of a master table: accepted with at most `accept`, rejected with at least `reject` in the sample. */
export interface MasterPlan {
  readonly letter: CodeLetter;
  readonly sampleSize: number;
  readonly accept: number;
  /** One more than `accept`, but for reduced inspection: see `SWITCHING`. */
  readonly reject: number;
}

type Cell = readonly [accept: number, reject: number] | 'up' | 'down';

/** Acceptance numbers with the rejection number next to each. */
const close = (...accepts: readonly number[]): Cell[] => accepts.map((accept) => [accept, accept + 1]);

/**
 * A master table is one diagonal, moved one letter for each step of the AQL, because sample size and AQL grow by the
 * same factor. These are its cells in order; an arrow points to the next plan with a smaller (up) or larger (down)
 * sample. Before the first cell all arrows point down, after the last one up.
 */
interface Master {
  readonly sizes: readonly number[];
  readonly diagonal: readonly Cell[];
  /** The AQL at which it begins for letter E. */
  readonly start: Aql;
  /** Letters A to E have two more plans at the end of it. */
  readonly ends: readonly Cell[];
}

const SIZES = [2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000, 3150];

/** MIL-STD-105E tables II-A, II-B and II-C, as the CRAN package AQLSchemes carries them. */
const MASTERS: Readonly<Record<Severity, Master>> = {
  normal: {
    // No letter S.
    sizes: SIZES.slice(0, -1),
    start: 1,
    diagonal: [[0, 1], 'up', 'down', ...close(1, 2, 3, 5, 7, 10, 14, 21)],
    ends: close(30, 44),
  },
  tightened: {
    sizes: SIZES,
    start: 1.5,
    // Where normal inspection may go on with the smaller sample, tightened takes the larger one.
    diagonal: [[0, 1], 'down', 'down', ...close(1, 2, 3, 5, 8, 12, 18)],
    ends: close(27, 41),
  },
  reduced: {
    sizes: [2, 2, 2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800],
    start: 1,
    diagonal: [[0, 1], 'up', 'down', [0, 2], [1, 3], [1, 4], [2, 5], [3, 6], [5, 8], [7, 10], [10, 13]],
    ends: [
      [14, 17],
      [21, 24],
    ],
  },
};

/**
 * Cells beside the diagonal, from an AQL on: reduced inspection cannot take fewer than two, and letters A and B have
 * larger numbers instead; tightened inspection has no 0 of 2.
 */
const BESIDE: Readonly<Record<string, readonly [from: Aql, cells: readonly Cell[]]>> = {
  'reduced A': [25, close(1, 2, 3, 5, 7, 10, 14, 21, 30)],
  'reduced B': [25, [[1, 3], [2, 4], [3, 5], ...close(5, 7, 10, 14, 21, 30)]],
  'tightened A': [10, ['down']],
};

const LAST_WITH_ENDS = CODE_LETTERS.indexOf('E');

function cell(severity: Severity, letter: number, column: number): Cell {
  const { diagonal, ends, start } = MASTERS[severity];
  const beside = BESIDE[`${severity} ${CODE_LETTERS[letter]!}`];
  const place = letter + column - LAST_WITH_ENDS - AQLS.indexOf(start);
  const found = beside?.[1][column - AQLS.indexOf(beside[0])];
  if (found) return found;
  if (place < 0) return 'down';
  return [...diagonal, ...(letter <= LAST_WITH_ENDS ? ends : [])][place] ?? 'up';
}

/** The plan for a code letter and an AQL, arrows followed. An arrow off the table turns round. */
export function masterPlan(letter: CodeLetter, aql: Aql, severity: Severity = 'normal'): MasterPlan {
  const { sizes } = MASTERS[severity];
  const column = AQLS.indexOf(aql);
  let row = CODE_LETTERS.indexOf(letter);
  let step = 0;
  for (;;) {
    const found = cell(severity, row, column);
    if (typeof found !== 'string') {
      return { letter: CODE_LETTERS[row]!, sampleSize: sizes[row]!, accept: found[0], reject: found[1] };
    }
    // Once begun, a way is kept: two arrows that point at each other stand at the edge of the table only.
    step ||= found === 'up' ? -1 : 1;
    if (row + step < 0 || row + step >= sizes.length) step = -step;
    row += step;
  }
}
