/** What is used of the browser's storage. */
export type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

/** The browser's own storage; undefined where it is forbidden. */
export function browserShelf(): Shelf | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    // Reading the property throws where storage is blocked.
    return undefined;
  }
}
