import { applyEdits } from '../../audit/seal/edits';
import { reopen as reopenSheet, seal as sealSheet } from '../../audit/seal/seal';
import { STATEMENT } from '../../audit/seal/text';
import { EXIT, type Exit, Failure } from '../failure';
import { readBookToRewrite, writeBook } from '../files';
import { type CommandLine, needed, oneFile, oneSheet } from '../options';
import { say } from '../output';
import { newId } from './build';
import { readSigner } from './keys';

/** Seals a sheet and writes the workbook to a new file. */
export async function seal(line: CommandLine, program: string): Promise<Exit> {
  const sheet = oneSheet(line);
  const [who, output] = [needed(line.who, '--who'), needed(line.output, '--output')];
  const book = await readBookToRewrite(oneFile(line), line.drop);
  const answer = await sealSheet(book, sheet, {
    who,
    when: now(),
    program,
    subtle: crypto.subtle,
    newId,
    ...(line.key === undefined ? {} : { signer: await readSigner(line.key) }),
  });
  if (!answer.ok) throw new Failure(answer.why);
  await writeBook(output, applyEdits(book, answer.edits), line.force);
  say(
    `${output}: "${sheet}" sealed, SHA-256 ${answer.record.hash}${line.key === undefined ? '' : ', signed'}`,
  );
  say(STATEMENT);
  return EXIT.holds;
}

/** Takes a seal off, on the record, and writes the workbook to a new file. */
export async function reopen(line: CommandLine): Promise<Exit> {
  const sheet = oneSheet(line);
  const [who, why] = [needed(line.who, '--who'), needed(line.why, '--why')];
  const output = needed(line.output, '--output');
  const book = await readBookToRewrite(oneFile(line), line.drop);
  const answer = reopenSheet(book, sheet, { who, why, when: now() });
  if (!answer.ok) throw new Failure(answer.why);
  await writeBook(output, applyEdits(book, answer.edits), line.force);
  say(`${output}: "${sheet}" is open again`);
  return EXIT.holds;
}

function now(): string {
  return new Date().toISOString().replace(/\.\d+Z$/, 'Z');
}
