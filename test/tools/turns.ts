import { execFileSync } from 'node:child_process';
import { SECONDS } from './seconds.ts';

/**
 * `npm run verify` takes what is short every time, and of long files one turn of five: of their tests every fifth, of files
 * that are one walk every fifth file. Which turn follows from the commit, so that a commit is always tested alike
 * and those after it see the rest. `TURN=all npm run verify` takes everything, `TURN=3` the third turn.
 */
export const TURNS = 5;

/** The main job, from a set-up to results and a saved file, is walked through in a page every time. */
const ALWAYS: readonly string[] = ['test/e2e/mainjob.test.ts'];

/** Files whose preparation takes longer than their tests, or whose tests go on from each other; taken whole, like walks through a page. */
const PREPARED: readonly string[] = [
  'test/audit/quietkinds.test.ts',
  'test/cli/example.test.ts',
  'test/cli/register.test.ts',
  'test/sheets/commalocale.test.ts',
  'test/sheets/comparison.recalculate.test.ts',
  'test/workbench/saved.test.ts',
  'test/xlsx/handover.test.ts',
];

const isLong = (file: string) => file in SECONDS && !ALWAYS.includes(file);

/** Files of pages whose tests begin anew, each by itself. */
const APART: readonly string[] = ['test/e2e/fields.test.ts', 'test/e2e/fieldswindow.test.ts'];

const isWhole = (file: string) =>
  (file.startsWith('test/e2e/') && !APART.includes(file)) || PREPARED.includes(file);

/**
 * The turn that is asked for, from 1; none where all tests are. A plain `vitest run`, of one file or of all, takes all.
 *
 * @param asked - `all`, a number, or `commit`: the one of the commit that is checked out.
 * @throws Error for anything else.
 */
export function turnAsked(asked = process.env.TURN): number | undefined {
  if (asked === undefined || asked === 'all') return undefined;
  if (asked === 'commit') return (Number.parseInt(commitOfToday().slice(0, 8), 16) % TURNS) + 1;
  const turn = Number(asked);
  if (Number.isInteger(turn) && turn >= 1 && turn <= TURNS) return turn;
  throw new Error(`TURN is "all", "commit" or a number from 1 to ${TURNS}; it is "${asked}".`);
}

/** The commit that is checked out; sources that came as an archive have none and begin with the first turn. */
function commitOfToday(): string {
  try {
    return execFileSync('git', ['rev-parse', 'HEAD'], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
  } catch {
    return '0';
  }
}

/** Long files that are taken whole, and not in this turn: shared out so that turns are about as long as each other. */
export function filesOfOtherTurns(turn: number | undefined): string[] {
  if (turn === undefined) return [];
  const shares = Array.from({ length: TURNS }, () => ({ seconds: 0, files: [] as string[] }));
  const whole = Object.entries(SECONDS).filter(([file]) => isLong(file) && isWhole(file));
  for (const [file, seconds] of whole.sort(([, a], [, b]) => b - a)) {
    const lightest = shares.reduce((least, share) => (share.seconds < least.seconds ? share : least));
    lightest.seconds += seconds;
    lightest.files.push(file);
  }
  return shares.flatMap(({ files }, i) => (i === turn - 1 ? [] : files));
}

/** Whether the test at a position of a file, counted through its groups, is in this turn. */
export function isInTurn(file: string, position: number, turn: number): boolean {
  if (!isLong(file) || isWhole(file)) return true;
  // Files begin at different turns: the first test of a file is often its longest.
  const first = [...file].reduce((sum, letter) => sum + (letter.codePointAt(0) ?? 0), 0);
  return (first + position) % TURNS === turn - 1;
}
