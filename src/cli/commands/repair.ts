import { check as checkBook, isRecord } from '../../audit/check/check';
import { answerOf } from '../../audit/check/text';
import { putBackWords, repaired } from '../../audit/repair';
import { ourSheets } from '../../audit/view';
import { utc } from '../../sheets/days';
import { readXlsx, remarksOf, rewriteXlsx } from '../../xlsx';
import { EXIT, type Exit } from '../failure';
import { freeToWrite, readBytes, writeOut } from '../files';
import { logged } from '../log';
import { type CommandLine, needed, oneFile } from '../options';
import { say } from '../output';
import { chosenOf } from '../sheets';

/**
 * What was lost of our sheets, put back from their plans and what was typed, and results calculated anew. Where nothing
 * is wrong the new file is a copy, so that whoever goes on with it has one; where something is and nothing could be
 * done about it, there is none.
 */
export async function repair(line: CommandLine, program: string): Promise<Exit> {
  const path = oneFile(line);
  const output = needed(line.output, '--output');
  await freeToWrite(output, line.force);
  const bytes = await readBytes(path);
  const book = await readXlsx(bytes);
  const ours = ourSheets(book).filter((view) => !isRecord(view));
  const sheets = chosenOf(ours, { path, sheets: line.sheets }).map(({ sheet }) => sheet.name);
  const { book: after, done, anew, left } = repaired(book, sheets);
  for (const { sheet, why } of left) say(`“${sheet}” is left alone: ${why}.`);
  for (const each of done) say(`“${each.sheet}”, ${putBackWords(each)}`);
  for (const { sheet, results } of anew) say(`“${sheet}”, ${anewWords(results)}`);
  const isChanged = done.length > 0 || anew.length > 0;
  const copy = isChanged ? await rewriteXlsx(bytes, logged(after, logLines())) : bytes;
  // As a check of the new file finds it: what only a file tells cannot be put back, and is not passed over.
  const report = await checkBook(after, { file: remarksOf(copy), subtle: crypto.subtle, sheets });
  const isLeft = report.findings.some(({ severity }) => severity !== 'note');
  if (!isChanged && isLeft) {
    say(
      `There was nothing to put back and no result to calculate anew; no file was written. ${answerOf(report)}`,
    );
    return EXIT.findings;
  }
  await writeOut(output, copy, line.force);
  const results = anew.reduce((sum, each) => sum + each.results, 0);
  const deeds = [
    ...(done.length > 0 ? [`${done.length} put back`] : []),
    ...(results > 0 ? [anewWords(results)] : []),
  ];
  say(`${output}: ${deeds.join(', ') || 'a copy, since there was nothing to put back'}. ${answerOf(report)}`);
  return isLeft ? EXIT.findings : EXIT.holds;

  function logLines() {
    const when = utc(new Date());
    return [...new Set([...done, ...anew].map(({ sheet }) => sheet))].map((sheet) => {
      const results = anew.find((each) => each.sheet === sheet)?.results ?? 0;
      const own = done.filter((each) => each.sheet === sheet).map(putBackWords);
      const detail = [...own, ...(results > 0 ? [anewWords(results)] : [])].join('; ').slice(0, DETAIL);
      return { when, who: line.who ?? '', program, what: 'repaired' as const, sheet, detail };
    });
  }
}

function anewWords(results: number): string {
  return `${results} ${results === 1 ? 'result' : 'results'} calculated anew`;
}

/** Characters of a line of the log. */
const DETAIL = 1000;
