import { type Line, type Mark, split } from './split';

/** A text taken apart into cells. */
export interface Table {
  readonly mark: Mark;
  /** How it was taken apart, for a person to check: "Cells end at each semicolon." */
  readonly how: string;
  /** Every line with any text. */
  readonly lines: readonly Line[];
  /** Cells of its first line. */
  readonly columns: number;
}

/** Why a text is not taken for a table. */
export interface Refusal {
  readonly refused: 'too much text' | 'too many lines' | 'no text';
  /** A whole sentence. */
  readonly message: string;
}

/** What a text may be at most; more is another file than was meant. */
interface Bounds {
  /** "a list of offers" */
  readonly what: string;
  readonly characters: number;
  /** Lines with any text, besides one of headings. */
  readonly lines: number;
}

/** How one use looks at tables. */
export interface Reader<T extends Table> {
  readonly bounds: Bounds;
  /** The ways in which the cells can be parted. */
  readonly marks: (text: string) => readonly Mark[];
  /** What the columns are, as far as the table tells. */
  readonly describe: (table: Table) => T;
  /** How well that fits; of several ways the one that fits best was meant, of equals the first. */
  readonly score: (table: T) => number;
}

/** Text of a file or of the clipboard → a table; undefined where there is no text yet. */
export function readTable<T extends Table>(text: string, reader: Reader<T>): T | Refusal | undefined {
  const { bounds, marks, describe, score } = reader;
  if (text.trim() === '') return undefined;
  if (text.length > bounds.characters)
    return refuse('too much text', `This is far more text than ${bounds.what}: choose another file.`);
  if (text.includes('\u0000'))
    return refuse('no text', 'This is not a text file. Save it as text or CSV first.');
  const found: T[] = [];
  for (const mark of marks(text)) {
    const lines = split(text, mark).filter(({ cells }) => !isBlank(cells));
    if (lines.length > bounds.lines + 1) return refuse('too many lines', tooMany(lines.length, bounds));
    found.push(describe({ mark, how: howOf(mark), lines, columns: lines[0]?.cells.length ?? 0 }));
  }
  return found.reduce((best, other) => (score(other) > score(best) ? other : best));
}

export function isRefusal(found: Table | Refusal | undefined): found is Refusal {
  return found !== undefined && 'refused' in found;
}

/**
 * The ways a pasted text can be a table, most certain first. A tab settles it: only spreadsheets put one there. So
 * does a semicolon; otherwise several are possible, since a comma can end a cell or begin a decimal.
 */
export function likelyMarks(text: string): readonly Mark[] {
  const bare = text.replace(/"[^"]*"/g, '');
  if (bare.includes('\t')) return ['tab'];
  if (bare.includes(';')) return ['semicolon'];
  return ['none', 'comma', 'comma and space', 'space'];
}

function refuse(refused: Refusal['refused'], message: string): Refusal {
  return { refused, message };
}

function tooMany(count: number, { what, lines }: Bounds): string {
  return `There are ${count} lines; ${what} has at most ${lines}: choose another file, or take it in parts.`;
}

function howOf(mark: Mark): string {
  return mark === 'none' ? 'Only one column was found.' : `Cells end at each ${mark}.`;
}

const isBlank = (cells: readonly string[]) => cells.every((cell) => cell.trim() === '');
