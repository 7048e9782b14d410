/**
 * Remembers what a pure function of a text gave, `kept` of them and the `kept` before: what is asked for again and again
 * stays while a long workbook goes by.
 */
export function once<T>(compute: (text: string) => T, kept = 8000): (text: string) => T {
  let known = new Map<string, T>();
  let before = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined || known.has(text)) return found as T;
    const value = before.has(text) ? (before.get(text) as T) : compute(text);
    if (known.size >= kept) [before, known] = [known, new Map()];
    known.set(text, value);
    return value;
  };
}
