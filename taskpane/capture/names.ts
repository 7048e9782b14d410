/** Begins the keys of everything that capture keeps in the browser; the host's partition key keeps sites apart. */
export function capturePrefix(partitionKey: string | undefined): string {
  return `${partitionKey ?? ''}LightCapture.`;
}

const LETTERS = 'abcdefghijklmnopqrstuvwxyz0123456789';

/** Ten letters and digits: names a window's entries, or a pair of windows. */
export function randomName(): string {
  return [...crypto.getRandomValues(new Uint8Array(10))]
    .map((byte) => LETTERS[byte % LETTERS.length])
    .join('');
}
