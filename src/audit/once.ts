/** Remembers what a pure function of a text gave; forgets everything when too much has been kept. */
export function once<T>(compute: (text: string) => T, kept = 4000): (text: string) => T {
  const known = new Map<string, T>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined || known.has(text)) return found as T;
    if (known.size >= kept) known.clear();
    const value = compute(text);
    known.set(text, value);
    return value;
  };
}
