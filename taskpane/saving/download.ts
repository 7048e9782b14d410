/** How long a file's address is kept for the browser to fetch it, in ms; a large file on a slow stick takes time. */
const KEEP = 60_000;

/**
 * Hands a file to the browser's downloads. Some programs drop it without a word (Excel on a Mac does, office-js issue
 * 2700), and nothing tells whether it arrived: hence `createSaving`, which asks.
 */
export function handToBrowser(contents: BlobPart, name: string, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([contents], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEEP);
}
