import { plainCopy } from '../../audit/plain';
import { sheetsToVerify } from '../../audit/seal/lost';
import { verify } from '../../audit/seal/verify';
import { utc } from '../../sheets/days';
import { handOver } from '../../xlsx';
import { EXIT, type Exit, Failure } from '../failure';
import { readBook, readBytes, writeOut } from '../files';
import type { CommandLine } from '../options';
import { say } from '../output';

/** A copy of a workbook that needs no add-in. */
export async function plain(line: CommandLine, program: string): Promise<Exit> {
  const [path, second, ...others] = line.files;
  const target = second ?? line.output;
  if (path === undefined || target === undefined || others.length > 0) {
    throw new Failure(
      'light plain needs a file and where to write the copy.',
      'For example: light plain run.xlsx plain.xlsx',
    );
  }
  if (second !== undefined && line.output !== undefined && second !== line.output) {
    throw new Failure(`It is not clear where to write the copy: ${second} or ${line.output}?`);
  }
  const book = await readBook(path);
  const sealed = sheetsToVerify(book);
  const reports = await Promise.all(
    sealed.map(({ sheet }) => verify(book, sheet.name, { subtle: crypto.subtle })),
  );
  const moment = { when: utc(new Date()), who: line.who ?? '', program };
  const answer = plainCopy(book, moment, reports);
  if (!answer.ok) throw new Failure(answer.why, answer.remedy);
  await writeOut(target, await handOver(await readBytes(path), answer.copy), line.force);
  for (const [sheet, cells] of answer.copy.values)
    say(
      `"${sheet}": ${cells.length} ${cells.length === 1 ? 'result stands as a value' : 'results stand as values'}`,
    );
  say(
    `${target}: a copy for any spreadsheet program; its sheet "${answer.copy.cover.title}" says what it is.`,
  );
  return EXIT.holds;
}
