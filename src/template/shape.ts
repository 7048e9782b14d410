/** More than any template of ours is, so that nothing large is looked at closer. */
export const MOST_CHARACTERS = 256 * 1024;
const MOST_DEPTH = 8;
const MOST_VALUES = 20_000;

/** Names that mean something to a program and nothing in a template. */
const TRICKS: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

/** What is wrong with the bare build of a parsed file, before it is asked what its fields mean; undefined if nothing. */
export function shapeProblem(json: unknown): string | undefined {
  let values = 0;
  const look = (value: unknown, depth: number, path: string): string | undefined => {
    if (++values > MOST_VALUES) return `it holds more than ${MOST_VALUES} values.`;
    if (typeof value !== 'object' || value === null) return undefined;
    if (depth >= MOST_DEPTH) return `${path || 'it'} is nested deeper than ${MOST_DEPTH} levels.`;
    for (const key of Object.keys(value)) {
      const at = Array.isArray(value) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
      if (TRICKS.has(key)) return `${at.slice(0, 200)}: a field of this name is not allowed.`;
      const problem = look((value as Record<string, unknown>)[key], depth + 1, at);
      if (problem) return problem;
    }
    return undefined;
  };
  return look(json, 0, '');
}
