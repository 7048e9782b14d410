import { calculateAll } from '../../audit/formula/calculate';
import { exampleBook } from '../../sheets/example';
import { EXIT, type Exit, Failure } from '../failure';
import { freeToWrite, writeBuilt } from '../files';
import type { CommandLine } from '../options';
import { say } from '../output';
import { newId } from './build';

/** The ready example of invented data as a file, with charts. */
export async function example({ files, output, force }: CommandLine): Promise<Exit> {
  const [target = output, ...others] = output === undefined ? files : [output, ...files];
  if (target === undefined)
    throw new Failure('light example needs a file to write.', 'For example: light example out.xlsx');
  if (others.length > 0) throw new Failure(`light example writes one file; "${others[0]}" is one too many.`);
  await freeToWrite(target, force);
  const book = exampleBook(newId);
  const sheets = calculateAll(book.sheets);
  await writeBuilt(target, { ...book, sheets }, force);
  say(
    `${target}: ${book.sheets.length} sheets of invented data, ${book.sheets.map(({ name }) => `"${name}"`).join(', ')}`,
  );
  return EXIT.holds;
}
