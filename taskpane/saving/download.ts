/** How long a file's address is kept for the browser to fetch it, in ms; a large file on a slow stick takes time. */
const KEEP = 60_000;

/** Between two files, in ms: Chromium starts ten downloads of a page in a second and drops the others without a word. */
const SPACING = 150;

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

/** Waits until the next of several files can be handed over. `handed` is when the last one was, by `performance.now()`. */
export async function spaced(handed: number): Promise<void> {
  const wait = handed + SPACING - performance.now();
  if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
}
