/**
 * What `make` gives for the same arguments, made once for all test files of a worker: workbooks that many tests begin
 * with, and that take seconds to calculate. Frozen through and through, so that no test spoils one for the next.
 *
 * @param make its arguments are what JSON can hold
 */
export function kept<A extends readonly unknown[], T extends object>(
  make: (...args: A) => T,
): (...args: A) => T {
  const made = new Map<string, T>();
  return (...args) => {
    const key = JSON.stringify(args);
    const known = made.get(key) ?? frozen(make(...args));
    made.set(key, known);
    return known;
  };
}

function frozen<T extends object>(whole: T): T {
  if (Object.isFrozen(whole)) return whole;
  Object.freeze(whole);
  for (const part of Object.values(whole)) if (typeof part === 'object' && part !== null) frozen(part);
  return whole;
}
