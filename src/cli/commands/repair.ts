import { check as checkBook, isRecord } from '../../audit/check/check';
import { answerOf } from '../../audit/check/text';
import { putBackWords, repaired } from '../../audit/repair';
import { ourSheets } from '../../audit/view';
import { utc } from '../../sheets/days';
import { readXlsx, rewriteXlsx } from '../../xlsx';
import { EXIT, type Exit } from '../failure';
import { freeToWrite, readBytes, writeOut } from '../files';
import { logged } from '../log';
import { type CommandLine, needed, oneFile } from '../options';
import { say } from '../output';
import { chosenOf } from '../sheets';

/** What was lost of our sheets, put back from their plans and what was typed. */
export async function repair(line: CommandLine, program: string): Promise<Exit> {
  const path = oneFile(line);
  const output = needed(line.output, '--output');
  await freeToWrite(output, line.force);
  const bytes = await readBytes(path);
  const book = await readXlsx(bytes);
  const ours = ourSheets(book).filter((view) => !isRecord(view));
  const sheets = chosenOf(ours, { path, sheets: line.sheets }).map(({ sheet }) => sheet.name);
  const { book: after, done, left } = repaired(book, sheets);
  for (const { sheet, why } of left) say(`“${sheet}” is left alone: ${why}.`);
  for (const each of done) say(`“${each.sheet}”, ${putBackWords(each)}`);
  const report = await checkBook(after, { subtle: crypto.subtle, sheets });
  if (done.length === 0) say('There was nothing to put back; no file was written.');
  else {
    const when = utc(new Date());
    const lines = [...new Set(done.map(({ sheet }) => sheet))].map((sheet) => {
      const own = done.filter((each) => each.sheet === sheet);
      const detail = own.map(putBackWords).join('; ').slice(0, DETAIL);
      return { when, who: line.who ?? '', program, what: 'repaired' as const, sheet, detail };
    });
    await writeOut(output, await rewriteXlsx(bytes, logged(after, lines)), line.force);
    say(`${output}: ${done.length} put back. ${answerOf(report)}`);
  }
  return report.findings.some(({ severity }) => severity !== 'note') ? EXIT.findings : EXIT.holds;
}

/** Characters of a line of the log. */
const DETAIL = 1000;
