/** How long a file's address is kept for the browser to fetch it, in ms; a large file on a slow stick takes time. */
const KEEP = 60_000;

/** Saves a file by the browser's download. Some programs do not let the pane save: nothing tells whether it did. */
export function saveFile(contents: BlobPart, name: string, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([contents], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEEP);
}

/** Saves CSV. The mark in front tells spreadsheets that it is UTF-8. */
export function saveCsv(csv: string, name: string): void {
  saveFile(`\ufeff${csv}`, name, 'text/csv;charset=utf-8');
}
