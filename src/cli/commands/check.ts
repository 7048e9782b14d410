import { check as checkBook, isRecord } from '../../audit/check/check';
import { answerOf, reportRows, reportText, summary } from '../../audit/check/text';
import { ourSheets } from '../../audit/view';
import { csvText } from '../../csv/write';
import { readXlsx, remarksOf } from '../../xlsx';
import { EXIT, type Exit } from '../failure';
import { readBytes } from '../files';
import { type CommandLine, oneFile } from '../options';
import { print, printJson, progress } from '../output';
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
  return report.findings.some(({ severity }) => severity !== 'note') ? EXIT.findings : EXIT.holds;
}
