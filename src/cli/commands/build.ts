import { randomUUID } from 'node:crypto';
import { calculate } from '../../audit/formula/calculate';
import { bookOf } from '../../sheets/realize';
import { runPlan } from '../../sheets/run';
import { EXIT, type Exit, Failure } from '../failure';
import { readJson, readText, writeBook } from '../files';
import { type CommandLine, needed } from '../options';
import { say } from '../output';
import { fillPlan, readReadings } from '../readings';
import { readSetups } from '../setupfile';

/** A workbook from set-ups and readings, with every result calculated. */
export async function build({ files, output, force }: CommandLine): Promise<Exit> {
  const [setupPath, readingsPath, ...others] = files;
  if (setupPath === undefined)
    throw new Failure('light build needs a set-up file.', 'light --help shows one.');
  if (others.length > 0) throw new Failure(`light build takes two files; "${others[0]}" is one too many.`);
  const target = needed(output, '--output');
  const setups = readSetups(await readJson(setupPath), setupPath);
  const lines = readingsPath === undefined ? [] : readReadings(await readText(readingsPath), readingsPath);
  const stray = lines.find(({ run }) => run > setups.length);
  if (stray)
    throw new Failure(`${readingsPath}, line ${stray.line}: there is no run ${stray.run} in ${setupPath}.`);
  const plans = setups.map((setup, at) =>
    fillPlan(
      runPlan(setup, newId()),
      lines.filter(({ run }) => run === at + 1),
      readingsPath ?? '',
    ),
  );
  const book = bookOf(plans);
  await writeBook(target, { ...book, sheets: book.sheets.map(calculate) }, force);
  say(`${target}: ${book.sheets.map(({ name }) => `"${name}"`).join(', ')}`);
  return EXIT.holds;
}

/** An id as sheets and workbooks bear it: lower-case letters and digits. */
export function newId(): string {
  return randomUUID().replace(/-/g, '').slice(0, 16);
}
