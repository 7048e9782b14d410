import { check as checkBook } from '../../audit/check/check';
import { reportRows, reportText, summary } from '../../audit/check/text';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook } from '../files';
import { type CommandLine, oneFile } from '../options';
import { csvText, print, printJson, progress } from '../output';

/** Everything about our sheets in a file that is not as built, or not right. */
export async function check(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const book = await readBook(path);
  const names = book.sheets.map(({ name }) => name);
  const missing = line.sheets.find((sheet) => !names.includes(sheet));
  if (missing !== undefined) throw noSheet(missing, names);
  const report = await checkBook(book, {
    ...(line.sheets.length > 0 ? { sheets: line.sheets } : {}),
    progress: ({ done, total, sheet }) => progress(sheet === '' ? '' : `${done + 1} of ${total}: ${sheet}`),
  });
  if (report.sheets.length === 0) {
    throw new Failure(`${path} has no sheet of ours to check.`, 'Was it built by this tool?');
  }
  if (line.format === 'json') printJson({ file: path, summary: summary(report.findings), ...report });
  else print(line.format === 'csv' ? csvText(reportRows(report)) : reportText(report));
  return report.findings.some(({ severity }) => severity !== 'note') ? EXIT.findings : EXIT.holds;
}

export function noSheet(sheet: string, names: readonly string[]): Failure {
  return new Failure(
    `There is no sheet "${sheet}".`,
    `The sheets are ${names.map((name) => `"${name}"`).join(', ')}.`,
  );
}
