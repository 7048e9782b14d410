import { isRecord } from '../../audit/check/check';
import { isFilled } from '../../audit/check/contents';
import { expectedOf } from '../../audit/expected';
import { isError } from '../../audit/formula/value';
import { cellAt, ourSheets, type SheetView, valueAt } from '../../audit/view';
import type { Book, CellValue } from '../../sheets/book';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook } from '../files';
import { type CommandLine, oneFile } from '../options';
import { csvText, print, printJson, say } from '../output';
import { noSheet } from './check';

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
  /** Whose value it is: the add-in's function, or the plain formula where the function was not computed. */
  readonly by: 'function' | 'plain formula';
}

/** The results of every sheet of a file. */
export async function results(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const book = await readBook(path);
  const views = ourSheets(book);
  const names = views.map(({ sheet }) => sheet.name);
  const missing = line.sheets.find((sheet) => !names.includes(sheet));
  if (missing !== undefined) throw noSheet(missing, names);
  const chosen = views.filter(({ sheet }) => line.sheets.length === 0 || line.sheets.includes(sheet.name));
  const found = chosen.flatMap((view) => resultsOf(view, book));
  if (found.length === 0) {
    throw new Failure(`${path} has no sheet of ours with results.`, 'Was it built by this tool?');
  }
  if (line.format === 'json') printJson(found);
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
      unit,
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

function textOf(found: readonly Result[]): string {
  const width = Math.max(...found.map(({ label }) => label.length));
  const lines: string[] = [];
  for (const { sheet, label, value, unit, by } of found) {
    if (lines.at(-1) === undefined || !lines.includes(sheet))
      lines.push(...(lines.length > 0 ? [''] : []), sheet);
    const shown = typeof value === 'number' ? String(Number(value.toPrecision(6))) : String(value ?? 'empty');
    lines.push(
      `  ${label.padEnd(width)}  ${shown} ${unit}`.trimEnd() + (by === 'function' ? '' : '  (plain formula)'),
    );
  }
  return lines.join('\n');
}
