import { isRecord } from '../../audit/check/check';
import { isFilled } from '../../audit/check/contents';
import { expectedOf } from '../../audit/expected';
import { isError } from '../../audit/formula/value';
import { cellAt, ourSheets, type SheetView, valueAt } from '../../audit/view';
import type { Book, CellValue } from '../../sheets/book';
import { isoDay } from '../../sheets/days';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook } from '../files';
import { type CommandLine, oneFile } from '../options';
import { csvText, print, printJson, say } from '../output';
import { chosenOf } from '../sheets';

/** A result as it stands in the file. */
interface Result {
  readonly sheet: string;
  readonly kind: string;
  /** `WhiteLightOutput`; of a table with the line, `OfferCost[2]`. */
  readonly name: string;
  readonly label: string;
  readonly value: number | string | boolean | null;
  readonly unit: string;
  readonly cell: string;
  /** How the cell shows it, for people. */
  readonly format: string;
  /** Whether a plain formula stands in for a function that was not computed. */
  readonly isLacking: boolean;
  /** Whose value it is: the add-in's function, or the plain formula where the function was not computed. */
  readonly by: 'function' | 'plain formula';
}

/** The results of every sheet of a file. */
export async function results(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const book = await readBook(path);
  const chosen = chosenOf(ourSheets(book), { path, sheets: line.sheets });
  const found = chosen.flatMap((view) => resultsOf(view, book));
  if (found.length === 0) {
    throw new Failure(`${path} has no results to show.`, 'A report or a log holds none.');
  }
  if (line.format === 'json') printJson(found.map(recordOf));
  else if (line.format === 'csv') print(csvText([COLUMNS, ...found.map(rowOf)]));
  else print(textOf(found));
  return EXIT.holds;
}

function resultsOf(view: SheetView, book: Book): Result[] {
  // Reports and the log have none, and are no riddle.
  if (isRecord(view)) return [];
  const expected = expectedOf(view, book);
  if (!expected.known) {
    say(`${view.sheet.name}: ${expected.why}`);
    return [];
  }
  const { plan, audit } = expected;
  return audit.results(view, plan).map(({ name, label, unit, at, twinAt }): Result => {
    const [value, twin] = [valueAt(view, at), twinAt === undefined ? null : valueAt(view, twinAt)];
    const isLacking =
      typeof value !== 'number' && twinAt !== undefined && (isError(value) || typeof twin === 'number');
    const planned = plan.cells[at];
    const isTable = planned !== undefined && isFilled(planned);
    const isFunction = !isLacking && (isTable || /LIGHT\./i.test(cellAt(view, at)?.formula ?? ''));
    return {
      sheet: view.sheet.name,
      kind: plan.kind,
      name,
      label,
      // A part of 1 that the cell shows as a percentage.
      unit: unit === '%' ? '' : unit,
      format: cellAt(view, isLacking ? twinAt : at)?.style?.format ?? '',
      isLacking,
      value: plain(isLacking ? twin : value),
      cell: isLacking ? twinAt : at,
      by: isFunction ? 'function' : 'plain formula',
    };
  });
}

function plain(value: CellValue): number | string | boolean | null {
  return isError(value) ? value.error : value;
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
