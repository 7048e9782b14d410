import { bad, good, invalid, type Outcome, type Problem } from '../photometry/outcome';

/*
 * A sheet can hand a function a million cells of anything, and takes back only what a cell can hold. Whatever is beyond
 * is refused in words: a call that ends in the host's own error, or holds the page, tells nobody what is wrong.
 */

/** Cells that one call takes: the readings of 5000 units at nine points in four colours, with their ranges, are 360 000. */
const CELLS_IN = 500_000;
/** Excel's limit for the text of a cell ("Excel specifications and limits"). */
const TEXT_OUT = 32_767;
/** More sentences than anybody reads at a cell, and longer ones: some quote what a cell holds. */
const PROBLEMS_OUT = 20;
const SENTENCE_OUT = 500;

/** What a spreadsheet cell can get from us: a number, a text, or a table that spills. */
export type Result = number | string | (number | string)[][];

type Evaluate = (raw: readonly unknown[]) => Outcome<Result>;

/** The same function for anything that a sheet can hand over: never throws, gives only what a cell can hold. */
export function withinBounds(evaluate: Evaluate): Evaluate {
  return (raw) => {
    const cells = raw.reduce<number>((sum, argument) => sum + cellsIn(argument), 0);
    if (cells > CELLS_IN)
      return refused(`The arguments are ${cells} cells; one call takes at most ${CELLS_IN}.`);
    const outcome = evaluate(raw);
    return outcome.ok ? holdable(outcome.value) : { ok: false, problems: told(outcome.problems) };
  };
}

function cellsIn(argument: unknown): number {
  if (!Array.isArray(argument)) return 1;
  return argument.reduce<number>((sum, row) => sum + (Array.isArray(row) ? row.length : 1), 0);
}

function refused(message: string): Outcome<Result> {
  return bad(invalid('too-large', 'arguments', message));
}

/** A result as a cell can hold it; −0 would be shown as −0. */
function holdable(result: Result): Outcome<Result> {
  if (!Array.isArray(result)) return isHoldable(result) ? good(plain(result)) : beyond(result);
  for (const row of result) for (const cell of row) if (!isHoldable(cell)) return beyond(cell);
  return good(result.map((row) => row.map(plain)));
}

function isHoldable(value: number | string): boolean {
  return typeof value === 'number' ? Number.isFinite(value) : value.length <= TEXT_OUT;
}

function beyond(value: number | string): Outcome<Result> {
  return refused(
    typeof value === 'number'
      ? 'The result is no number that a cell can hold: an argument is far too large or too small.'
      : `The result is a text of ${value.length} characters; a cell takes ${TEXT_OUT}.`,
  );
}

function plain<T extends number | string>(value: T): T {
  return value === 0 ? (0 as T) : value;
}

/** The first faults, and how many there are besides. */
function told(problems: readonly Problem[]): readonly Problem[] {
  const first = problems.slice(0, PROBLEMS_OUT).map(short);
  const next = problems[PROBLEMS_OUT];
  if (!next) return first;
  // All of one kind stay so: a cell is #N/A only where every fault is a missing reading.
  const kind = problems.every((problem) => problem.kind === next.kind) ? next.kind : 'invalid';
  return [...first, { ...next, kind, message: `And ${problems.length - PROBLEMS_OUT} more.` }];
}

function short(problem: Problem): Problem {
  const { message } = problem;
  if (message.length <= SENTENCE_OUT) return problem;
  return { ...problem, message: `${message.slice(0, SENTENCE_OUT).replace(/[\ud800-\udbff]$/, '')} …` };
}
