import { traceRows, traceText } from '../../audit/trace/text';
import { trace as traceCell } from '../../audit/trace/trace';
import { csvText } from '../../csv/write';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook } from '../files';
import { type CommandLine, needed, oneFile, oneSheet } from '../options';
import { print, printJson } from '../output';
import { sheetList } from '../sheets';

/** One number back to its readings. */
export async function trace(line: CommandLine): Promise<Exit> {
  const sheet = oneSheet(line);
  const cell = needed(line.cell, '--cell');
  const book = await readBook(oneFile(line));
  const names = book.sheets.map(({ name }) => name);
  if (!names.includes(sheet)) throw new Failure(`There is no sheet "${sheet}".`, sheetList(names));
  const tree = traceCell(book, sheet, cell, { digits: line.digits });
  if (!tree) throw new Failure(`"${cell}" is neither a cell nor a name of the sheet "${sheet}".`);
  if (line.format === 'json') printJson(tree);
  else print(line.format === 'csv' ? csvText(traceRows(tree)) : traceText(tree));
  return EXIT.holds;
}
