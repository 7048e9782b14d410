/** Results on standard output. */
export function print(text: string): void {
  process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
}

export function printJson(value: unknown): void {
  print(JSON.stringify(value, undefined, 2));
}

/** A word to the person at the terminal; nothing where nobody watches. */
export function say(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** One line that is written over and over, on a terminal only. */
export function progress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text}`);
}
