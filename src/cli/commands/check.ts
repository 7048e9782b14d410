import { check as checkBook, isRecord } from '../../audit/check/check';
import type { RemedyId } from '../../audit/check/finding';
import { answerOf, reportRows, reportText, summary } from '../../audit/check/text';
import { ourSheets } from '../../audit/view';
import { csvText } from '../../csv/write';
import { readXlsx, remarksOf } from '../../xlsx';
import { EXIT, type Exit } from '../failure';
import { readBytes } from '../files';
import { type CommandLine, oneFile } from '../options';
import { print, printJson, progress, say } from '../output';
import { judgedOf } from '../sheets';

/** Everything about our sheets in a file that is not as built, or not right. */
export async function check(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const bytes = await readBytes(path);
  const book = await readXlsx(bytes);
  const ours = ourSheets(book).filter((view) => !isRecord(view));
  const report = await checkBook(book, {
    file: remarksOf(bytes),
    subtle: crypto.subtle,
    sheets: judgedOf(book, ours, { path, sheets: line.sheets }).map(({ sheet }) => sheet.name),
    progress: ({ done, total, sheet }) => progress(sheet === '' ? '' : `${done + 1} of ${total}: ${sheet}`),
  });
  if (line.format === 'json')
    printJson({ file: path, answer: answerOf(report), summary: summary(report.findings), ...report });
  else print(line.format === 'csv' ? csvText(reportRows(report)) : reportText(report));
  // The remedies are worded for the pane, which has a button for each.
  if (line.format === 'text' && report.findings.some(({ remedy }) => remedy && REPAIRED.has(remedy)))
    say(`What can be put back, and results that are old: light repair ${path} -o REPAIRED.xlsx`);
  return report.findings.some(({ severity }) => severity !== 'note') ? EXIT.findings : EXIT.holds;
}

/** What "light repair" does something about. */
const REPAIRED: ReadonlySet<RemedyId> = new Set([
  'refresh',
  'restore-formula',
  'restore-text',
  'restore-name',
  'restore-validation',
  'restore-format',
  'restore-lock',
  'protect',
]);
