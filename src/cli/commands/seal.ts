import { applyEdits } from '../../audit/seal/edits';
import { reopen as reopenSheet, seal as sealSheet } from '../../audit/seal/seal';
import { thumbprint } from '../../audit/seal/sign';
import { certifiedSeal, withStamps } from '../../audit/seal/stamp';
import { STATEMENT } from '../../audit/seal/text';
import { verify } from '../../audit/seal/verify';
import { viewOf } from '../../audit/view';
import type { Book } from '../../sheets/book';
import { utc } from '../../sheets/days';
import type { LogLine } from '../../sheets/log';
import { readXlsx, rewriteXlsx } from '../../xlsx';
import { EXIT, type Exit, Failure } from '../failure';
import { readBytes, writeOut } from '../files';
import { logged } from '../log';
import { type CommandLine, needed, oneFile, oneSheet } from '../options';
import { say } from '../output';
import { newId } from './build';
import { readSigner } from './keys';

/** Seals a sheet and writes the workbook to a new file. */
export async function seal(line: CommandLine, program: string): Promise<Exit> {
  const sheet = oneSheet(line);
  const [who, output] = [needed(line.who, '--who'), needed(line.output, '--output')];
  const bytes = await readBytes(oneFile(line));
  const book = await readXlsx(bytes);
  const signer = line.key === undefined ? undefined : await readSigner(line.key);
  const moment = { who, when: utc(new Date()), program };
  const answer = await sealSheet(book, sheet, {
    ...moment,
    subtle: crypto.subtle,
    newId,
    ...(signer ? { signer } : {}),
  });
  if (!answer.ok) throw new Failure(answer.why);
  const { sequence, hash } = answer.record;
  const lines: LogLine[] = [
    { ...moment, what: 'sealed', sheet, detail: `Seal ${sequence}, SHA-256 ${hash}` },
  ];
  if (signer) {
    const key = await thumbprint(crypto.subtle, signer.publicKey);
    lines.push({ ...moment, what: 'signed', sheet, detail: `Seal ${sequence}, with the key ${key}` });
  }
  const told = await tell(applyEdits(book, answer.edits), sheet, moment.when);
  await writeOut(output, await rewriteXlsx(bytes, logged(told, lines)), line.force);
  say(`${output}: "${sheet}" sealed, SHA-256 ${hash}${signer ? ', signed' : ''}`);
  say(STATEMENT);
  return EXIT.holds;
}

/** Takes a seal off, on the record, and writes the workbook to a new file. */
export async function reopen(line: CommandLine, program: string): Promise<Exit> {
  const sheet = oneSheet(line);
  const [who, why] = [needed(line.who, '--who'), needed(line.why, '--why')];
  const output = needed(line.output, '--output');
  const bytes = await readBytes(oneFile(line));
  const book = await readXlsx(bytes);
  const moment = { who, when: utc(new Date()), program };
  const answer = reopenSheet(book, sheet, { who, why, when: moment.when });
  if (!answer.ok) throw new Failure(answer.why);
  const told = await tell(applyEdits(book, answer.edits), sheet, moment.when);
  const after = logged(told, [{ ...moment, what: 'reopened', sheet, detail: why }]);
  await writeOut(output, await rewriteXlsx(bytes, after), line.force);
  say(`${output}: "${sheet}" is open again`);
  return EXIT.holds;
}

/** The book with the certificates of a run telling of its seal as it is now. */
async function tell(book: Book, run: string, now: string): Promise<Book> {
  const sheet = book.sheets.find(({ name }) => name === run);
  if (!sheet) return book;
  const report = await verify(book, run, { subtle: crypto.subtle });
  return withStamps(book, run, certifiedSeal(report, viewOf(sheet), now));
}
