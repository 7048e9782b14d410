import { isRecord } from '../../audit/check/check';
import { resultsOf, type SheetResult } from '../../audit/results';
import { ourSheets, type SheetView } from '../../audit/view';
import { csvText } from '../../csv/write';
import type { Book } from '../../sheets/book';
import { isoDay } from '../../sheets/days';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook } from '../files';
import { type CommandLine, oneFile } from '../options';
import { print, printJson, say } from '../output';
import { chosenOf } from '../sheets';

/** A result as it stands in the file. */
interface Result extends SheetResult {
  readonly sheet: string;
  readonly kind: string;
}

/** The results of every sheet of a file. */
export async function results(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const book = await readBook(path);
  const chosen = chosenOf(ourSheets(book), { path, sheets: line.sheets });
  const found = chosen.flatMap((view) => ofSheet(view, book));
  if (found.length === 0) {
    throw new Failure(`${path} has no results to show.`, 'A report or a log holds none.');
  }
  if (line.format === 'json') printJson(found.map(recordOf));
  else if (line.format === 'csv') print(csvText([COLUMNS, ...found.map(rowOf)]));
  else print(textOf(found));
  return EXIT.holds;
}

function ofSheet(view: SheetView, book: Book): Result[] {
  const { sheet, identity } = view;
  // Reports and the log have none, and are no riddle.
  if (isRecord(view)) return [];
  const found = resultsOf(view, book);
  if (!found.known) {
    say(`${sheet.name}: ${found.why}`);
    return [];
  }
  return found.results.map((each) => ({ sheet: sheet.name, kind: identity!.kind, ...each }));
}

const COLUMNS = ['sheet', 'kind', 'name', 'label', 'value', 'unit', 'cell', 'by'] as const;
function rowOf(result: Result) {
  return COLUMNS.map((column) => result[column]);
}
function recordOf(result: Result) {
  return Object.fromEntries(COLUMNS.map((column) => [column, result[column]]));
}

function textOf(found: readonly Result[]): string {
  const filled = found.filter(({ value }) => value !== null && value !== '');
  const width = Math.min(LABEL_MAX, Math.max(0, ...filled.map(({ label }) => label.length)));
  const sheets = [...new Set(found.map(({ sheet }) => sheet))];
  return sheets
    .map((sheet) => {
      const own = filled.filter((result) => result.sheet === sheet);
      const empty = found.filter((result) => result.sheet === sheet).length - own.length;
      return [
        sheet,
        ...own.map((result) => `  ${result.label.padEnd(width)}  ${shown(result)}`),
        ...(empty > 0 ? [`  ${empty} without a result`] : []),
      ].join('\n');
    })
    .join('\n\n');
}

/** Longer labels push their own value to the right, and no others. */
const LABEL_MAX = 60;
const DIGITS = 6;
/** Infinitely many degrees of freedom, as our sheets hold them. */
const INFINITE = 1e99;

function shown({ value, unit, format, isLacking }: Result): string {
  const text = typeof value === 'number' ? numberText(value, format) : String(value);
  // "pass" and "1 of 9" have no unit; "at least 500" has.
  const hasUnit = typeof value === 'number' ? !isDate(format) : /^(?:at least|more than) /.test(text);
  return `${text}${hasUnit && unit !== '' ? ` ${unit}` : ''}${isLacking ? '  (plain formula)' : ''}`;
}

function numberText(value: number, format: string): string {
  // A number that is no day of the calendar is shown as it is.
  if (isDate(format)) return isoDay(value) || digits(value);
  if (value >= INFINITE) return '∞';
  if (format.includes('%')) return `${digits(100 * value)} %`;
  return digits(value);
}

function digits(value: number): string {
  const rounded = Number(value.toPrecision(DIGITS));
  return Math.abs(rounded) >= 1e7 ? rounded.toExponential() : String(rounded);
}

function isDate(format: string): boolean {
  return /y/i.test(format.replace(/"[^"]*"/g, ''));
}
