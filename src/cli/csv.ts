/** A table from a file that is not what it should be: where, and what was expected. */
export class CsvError extends Error {
  constructor(
    readonly line: number,
    message: string,
  ) {
    super(`line ${line}: ${message}`);
    this.name = 'CsvError';
  }
}

/** More rows than any run has readings; a file beyond it was chosen by mistake. */
const ROWS = 10_000;

export interface CsvRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/**
 * Comma- or semicolon-separated values (RFC 4180 with either separator, whichever comes first in the first
 * line). Empty lines and lines that begin with `#` are left out. @throws CsvError
 */
export function parseCsv(text: string): { rows: CsvRow[]; separator: ',' | ';' } {
  const source = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const separator =
    /[,;]/.exec(source.replace(/^(?:#.*\n|\s*\n)*/, '').split('\n', 1)[0] ?? '')?.[0] === ';' ? ';' : ',';
  const rows: CsvRow[] = [];
  let [at, line] = [0, 1];
  while (at < source.length) {
    const started = line;
    const cells: string[] = [];
    for (;;) {
      const { cell, next } = source[at] === '"' ? quoted(source, at, line) : bare(source, at, separator);
      line += cell.split('\n').length - 1;
      cells.push(cell);
      at = next;
      if (source[at] !== separator) break;
      at++;
    }
    if (at < source.length && source[at] !== '\n')
      throw new CsvError(line, 'text after a closing quotation mark');
    at++;
    line++;
    if (cells.every((cell) => cell.trim() === '') || cells[0]!.startsWith('#')) continue;
    if (rows.length >= ROWS) throw new CsvError(started, `more than ${ROWS} rows`);
    rows.push({ line: started, cells: cells.map((cell) => cell.trim()) });
  }
  return { rows, separator };
}

function bare(source: string, from: number, separator: string): { cell: string; next: number } {
  let next = from;
  while (next < source.length && source[next] !== separator && source[next] !== '\n') next++;
  return { cell: source.slice(from, next), next };
}

function quoted(source: string, from: number, line: number): { cell: string; next: number } {
  let cell = '';
  for (let at = from + 1; at < source.length; at++) {
    if (source[at] !== '"') cell += source[at];
    else if (source[at + 1] === '"') cell += source[at++];
    else return { cell, next: at + 1 };
  }
  throw new CsvError(line, 'a quotation mark is never closed');
}
