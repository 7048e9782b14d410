import { randomUUID } from 'node:crypto';
import { calculate, calculateAll } from '../../audit/formula/calculate';
import type { BuiltSheet } from '../../sheets/built';
import { bookOf, freeName, realize } from '../../sheets/realize';
import { runPlan } from '../../sheets/run';
import { sheetSet } from '../../template/steps';
import { EXIT, type Exit, Failure } from '../failure';
import { freeToWrite, readJson, readText, writeBuilt } from '../files';
import { type CommandLine, needed, type OptionName } from '../options';
import { say } from '../output';
import { fillPlan, type ReadingLine, readReadings } from '../readings';
import { readSetups } from '../setupfile';
import { answersOf, templateAt } from '../templatefile';

/** A workbook from set-ups or a template, and readings, with results calculated. */
export async function build(line: CommandLine): Promise<Exit> {
  return line.template === undefined ? buildRuns(line) : buildSet(line, line.template);
}

/** What is said of a lot and its bid: a set-up knows of none. */
const OF_A_TEMPLATE: readonly OptionName[] = ['serials', 'seed', 'lot', 'who', 'label'];

async function buildRuns({ files, output, force, given }: CommandLine): Promise<Exit> {
  const stray = given.find((option) => OF_A_TEMPLATE.includes(option));
  if (stray !== undefined)
    throw new Failure(
      `The option --${stray} says something of a template only.`,
      'Add --template, or leave it out.',
    );
  const [setupPath, readingsPath, ...others] = files;
  if (setupPath === undefined)
    throw new Failure('light build needs a set-up file.', 'light build --help shows one.');
  if (others.length > 0) throw new Failure(`light build takes two files; "${others[0]}" is one too many.`);
  const target = needed(output, '--output');
  await freeToWrite(target, force);
  const setups = readSetups(await readJson(setupPath), setupPath);
  const lines = await readingsAt(readingsPath, setups.length, setupPath);
  const plans = setups.map((setup, at) =>
    fillPlan(
      runPlan(setup, newId()),
      lines.filter(({ run }) => run === at + 1),
      readingsPath ?? '',
    ),
  );
  const book = bookOf(plans);
  await writeBuilt(target, { ...book, sheets: book.sheets.map(calculate) }, force);
  say(`${target}: ${book.sheets.map(({ name }) => `"${name}"`).join(', ')}`);
  return EXIT.holds;
}

/** The linked sheets of a template; readings go to its runs, in their order. */
async function buildSet(line: CommandLine, path: string): Promise<Exit> {
  const { files, output, force } = line;
  const [readingsPath, ...others] = files;
  if (others.length > 0)
    throw new Failure(
      `With --template, light build takes one file of readings; "${others[0]}" is one too many.`,
    );
  const target = needed(output, '--output');
  await freeToWrite(target, force);
  const { steps, left } = sheetSet(await templateAt(path), await answersOf(line));
  const runs = steps.filter(({ kind }) => kind === 'run').length;
  const lines = await readingsAt(readingsPath, runs, path);
  const built = new Map<string, BuiltSheet>();
  let run = 0;
  for (const { key, kind, make } of steps) {
    const plan = make(built, newId());
    const sheet = freeName(
      plan.title,
      [...built.values()].map((one) => one.sheet),
    );
    if (kind === 'run') run++;
    const own = kind === 'run' ? lines.filter((reading) => reading.run === run) : [];
    built.set(key, { sheet, plan: own.length > 0 ? fillPlan(plan, own, readingsPath!) : plan });
  }
  const sheets = calculateAll([...built.values()].map(({ sheet, plan }) => realize(plan, sheet)));
  await writeBuilt(target, { sheets, names: [], active: sheets[0]!.name }, force);
  say(`${target}: ${sheets.map(({ name }) => `"${name}"`).join(', ')}`);
  for (const sentence of left) say(sentence);
  return EXIT.holds;
}

async function readingsAt(path: string | undefined, runs: number, of: string): Promise<ReadingLine[]> {
  const lines = path === undefined ? [] : readReadings(await readText(path), path);
  const stray = lines.find(({ run }) => run > runs);
  if (stray) throw new Failure(`${path}, line ${stray.line}: there is no run ${stray.run} in ${of}.`);
  return lines;
}

/** An id as sheets and workbooks bear it: lower-case letters and digits. */
export function newId(): string {
  return randomUUID().replace(/-/g, '').slice(0, 16);
}
