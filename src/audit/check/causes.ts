import type { Finding, FindingKind } from './finding';

/** Findings that have one cause: the first of them speaks for all. */
export interface Cause {
  readonly finding: Finding;
  /** The others, each with a cell of its own. */
  readonly others: readonly Finding[];
}

/** Kinds where many cells tell of one thing, whatever each of them holds: one reading that was not calculated, say. */
const WHATEVER: ReadonlySet<FindingKind> = new Set(['stale', 'recomputed', 'disagree', 'stamp', 'kept']);
/** Kinds where they do if what was found is the same: rules gone, cells unlocked, functions without the add-in. */
const ALIKE: ReadonlySet<FindingKind> = new Set([
  'broken',
  'validation',
  'lock',
  'format',
  'reading',
  'seen',
  'added',
]);
const CELLS = /\b[A-Z]{1,3}\d+(?::[A-Z]{1,3}\d+)?\b/g;
/** What a figure is called before what is said of it. */
const CALLED: ReadonlySet<FindingKind> = new Set(['recomputed', 'disagree', 'reading']);

/** Findings by their cause, in their order. */
export function byCause(findings: readonly Finding[]): Cause[] {
  const causes = new Map<string, Finding[]>();
  findings.forEach((finding, i) => {
    const key = keyOf(finding) ?? String(i);
    causes.set(key, [...(causes.get(key) ?? []), finding]);
  });
  return [...causes.values()].map(([finding, ...others]) => ({ finding: finding!, others }));
}

function keyOf({ sheet, at, kind, severity, message, found, remedy }: Finding): string | undefined {
  if (at === undefined || !(WHATEVER.has(kind) || ALIKE.has(kind))) return undefined;
  const told = CALLED.has(kind) ? message.replace(/^[^:]*: /, '') : message;
  const same = WHATEVER.has(kind) ? '' : found;
  return JSON.stringify([sheet, kind, severity, remedy ?? '', told.replace(CELLS, '@'), same]);
}

/** `B5, B7 and 12 more cells`. */
export function cellsOfCause({ others }: Cause, most: number): string {
  const cells = others.map(({ at }) => at!);
  const rest = cells.length - most;
  return `${cells.slice(0, most).join(', ')}${rest > 0 ? ` and ${rest} more cells` : ''}`;
}
