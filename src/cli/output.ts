/** Results on standard output. */
export function print(text: string): void {
  process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
}

export function printJson(value: unknown): void {
  print(JSON.stringify(value, undefined, 2));
}

/** Rows as comma-separated values (RFC 4180). A text that a spreadsheet would take for a formula gets a `'`. */
export function csvText(rows: readonly (readonly (string | number | boolean | null)[])[]): string {
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function cell(value: string | number | boolean | null): string {
  if (typeof value !== 'string') return value === null ? '' : String(value);
  const text = /^[=+@\t\r]|^-(?![\d.])/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}

/** A word to the person at the terminal; nothing where nobody watches. */
export function say(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** One line that is written over and over, on a terminal only. */
export function progress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text}`);
}
