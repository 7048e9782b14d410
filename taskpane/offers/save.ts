/** How long a file's address is kept for the browser to fetch it, in ms. */
const KEEP = 60_000;

/** Saves CSV by the browser's download. The mark in front tells spreadsheets that it is UTF-8. */
export function saveCsv(csv: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([`\ufeff${csv}`], { type: 'text/csv;charset=utf-8' }));
  link.download = 'offers.csv';
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEEP);
}
