import { argumentsOf, type Token, tokens } from './tokens';

/*
 * `@` takes one cell out of many ("Implicit intersection operator: @", Microsoft support). Excel puts it into a formula
 * that a file holds plainly, wherever more than one cell could come: before INDEX, before a block of one cell. There it
 * changes nothing.
 */

/** Without the signs that change nothing; before a block of several cells it stays. */
export function withoutIntersection(list: readonly Token[]): readonly Token[] {
  if (!list.some(isSign)) return list;
  return list.filter((token, at) => !isSign(token) || isBlock(list, at + 1));
}

const isSign = ({ kind, text }: Token) => kind === 'other' && text === '@';

/** Whether a block of several cells begins here, on this sheet or another. */
function isBlock(list: readonly Token[], from: number): boolean {
  const first = list[from + 1]?.text === '!' ? from + 2 : from;
  const [start, colon, end] = [list[first], list[first + 1], list[first + 2]];
  if (start?.kind === 'lines') return true;
  return colon?.text === ':' && bare(start) !== bare(end);
}

const bare = (token: Token | undefined) => token?.text.replace(/\$/g, '').toUpperCase();

/** What gives a range, or might. */
const GIVES_RANGES = /^(?:INDEX|OFFSET|INDIRECT)$/i;
/** Functions of which every argument may be a range, and of others those that may, counted from 0. */
const TAKES_RANGES =
  /^(?:SUM|SUMSQ|SUMPRODUCT|COUNT|COUNTA|COUNTBLANK|AVERAGE|MIN|MAX|AND|OR|STDEV|VAR|DEVSQ|MEDIAN|ROW|ROWS|COLUMN|COLUMNS|LIGHT\..*)$/i;
const TAKES_RANGE_AT: Readonly<Record<string, readonly number[]>> = {
  INDEX: [0],
  MATCH: [1],
  COUNTIF: [0],
  LARGE: [0],
  SMALL: [0],
  RANK: [1],
};

/** How Excel shows a formula that a file holds plainly, and not as an array formula. */
export function withIntersection(formula: string): string {
  const list = tokens(formula);
  const takes = rangesTaken(list);
  return list
    .map(({ kind, text }, at) => {
      const couldBeMany = kind === 'call' ? GIVES_RANGES.test(text) : isBlockOfOne(list, at);
      return couldBeMany && !takes.has(at) && list[at - 1]?.text !== '@' ? `@${text}` : text;
    })
    .join('');
}

function isBlockOfOne(list: readonly Token[], at: number): boolean {
  const [start, colon, end] = [list[at], list[at + 1], list[at + 2]];
  return start?.kind === 'cell' && colon?.text === ':' && bare(start) === bare(end);
}

/** Where a whole argument begins that its function takes as a range. */
function rangesTaken(list: readonly Token[]): Set<number> {
  const taken = new Set<number>();
  for (const [at, { kind, text }] of list.entries()) {
    if (kind !== 'call') continue;
    for (const [i, [from]] of argumentsOf(list, at).spans.entries())
      if (TAKES_RANGES.test(text) || TAKES_RANGE_AT[text.toUpperCase()]?.includes(i)) taken.add(from);
  }
  return taken;
}
