import { upToDate, withUpToDate } from '../../audit/older/update';
import { utc } from '../../sheets/days';
import { readXlsx, rewriteXlsx } from '../../xlsx';
import { EXIT, type Exit, Failure } from '../failure';
import { freeToWrite, readBytes, writeOut } from '../files';
import { logged } from '../log';
import { type CommandLine, needed, oneFile, oneSheet } from '../options';
import { say } from '../output';
import { newId } from './build';

/** A new sheet beside one of an earlier layout, from what was typed on it, and a table of what differs. */
export async function update(line: CommandLine, program: string): Promise<Exit> {
  const [path, sheet] = [oneFile(line), oneSheet(line)];
  const output = needed(line.output, '--output');
  await freeToWrite(output, line.force);
  const bytes = await readBytes(path);
  const book = await readXlsx(bytes);
  const when = utc(new Date());
  const moment = { when, who: line.who ?? '', program };
  const answer = upToDate(book, sheet, moment, newId);
  if (!answer.ok) throw new Failure(answer.why);
  const { made } = answer;
  const detail = `From “${sheet}”; ${made.differences.length} figures differ`;
  const after = logged(withUpToDate(book, made, line.links), [
    { ...moment, what: 'renewed', sheet: made.name, detail },
  ]);
  await writeOut(output, await rewriteXlsx(bytes, after), line.force);
  say(`${output}: “${made.name}” is built from what was typed on “${sheet}”, which stays as it is.`);
  say(
    made.differences.length === 0
      ? 'Every figure is the same.'
      : `${made.differences.length} figures differ; “${after.sheets.at(-1)!.name}” lists them with the reasons.`,
  );
  for (const { sheet: from, formulas, stays } of made.links) {
    const count = Object.keys(formulas).length;
    if (stays !== undefined) say(`The links of “${from}” stay: ${stays}.`);
    else if (line.links) say(`${count} links of “${from}” go to the new sheet.`);
    else say(`${count} links of “${from}” still go to the older sheet; --links moves them.`);
  }
  return EXIT.holds;
}
