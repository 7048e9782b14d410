import { createWriteStream } from 'node:fs';
import { mkdtemp, opendir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, relative, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { isMainThread } from 'node:worker_threads';
import { csvText } from '../../csv/write';
import { EXIT, type Exit, Failure } from '../failure';
import { freeToWrite, reasonOf, unwritten, writeBuilt, writeWhole } from '../files';
import type { CommandLine } from '../options';
import { print, printJson, progress, say } from '../output';
import { ageingOf, isOfUnit } from '../register/ageing';
import { type Answer, openEngine } from '../register/engine';
import { Kept, type Looked, linesIn } from '../register/kept';
import { COLUMNS, errorLine, type RegisterLine } from '../register/lines';
import { readAll } from '../register/pool';
import { newId } from './build';

const NAMES = Object.keys(COLUMNS) as (keyof RegisterLine)[];

/** Who accepted what: verdicts of lots, and certificates, with their seals. */
const ACCEPTED = `SELECT date, person, kind, quantity, coalesce(words, CAST(value AS VARCHAR)) AS result, u, decision, seal, sealed_by, workbook, sheet
FROM register
WHERE (kind = 'acceptance' AND quantity = 'LotVerdict') OR (kind = 'certificate' AND quantity IN ('CertifiedWhite', 'CertifiedColour'))
ORDER BY date NULLS LAST, workbook, sheet`;

/** The results of all workbooks of a folder as one table, as a file or as answers to questions. */
export async function register(line: CommandLine, program: string): Promise<Exit> {
  const [folder, ...others] = line.files;
  if (folder === undefined || others.length > 0) {
    throw new Failure(
      'light register needs one folder.',
      'For example: light register measured -o register.csv',
    );
  }
  const { output, force, sql, ageing, accepted } = line;
  const ending = /\.(parquet|csv|jsonl|xlsx)$/i.exec(output ?? '')?.[1]?.toLowerCase();
  const isSheet = ageing !== undefined;
  if (output !== undefined && (ending === undefined || isSheet !== (ending === 'xlsx'))) {
    throw new Failure(
      isSheet ? 'An ageing sheet is written as .xlsx.' : 'A register is written as .parquet, .csv or .jsonl.',
      'The ending of --output says which.',
    );
  }
  if (output === undefined && (isSheet || (sql === undefined && !accepted)))
    throw new Failure('The option --output is missing.', 'light register --help shows what it needs.');
  if (output !== undefined) await freeToWrite(output, force);
  // What workbooks said is kept beside the register; where none is written, in a folder of our own that goes with us:
  // whoever can write to the system's passing files must not answer for a workbook.
  const own = isSheet || output === undefined ? await mkdtemp(join(tmpdir(), 'light-register-')) : undefined;
  const kept = own === undefined ? `${output}.kept` : join(own, 'kept');
  try {
    const { bad, count } = await gather(folder, kept, program);
    if (isSheet) await writeAgeing(kept, ageing, line.mode, output!, force);
    else if (output !== undefined) await writeWhole(output, force, (to) => write(kept, to, ending!));
    if (sql !== undefined || accepted) await answer(kept, sql ?? ACCEPTED, line.format);
    say(`${count} ${count === 1 ? 'workbook' : 'workbooks'}, ${bad} of them could not be read whole.`);
    return bad > 0 ? EXIT.findings : EXIT.holds;
  } finally {
    if (own !== undefined) await rm(own, { recursive: true, force: true });
  }
}

/** Reads every workbook of a folder that is not as it was, into the kept file. */
async function gather(
  folder: string,
  path: string,
  program: string,
): Promise<{ bad: number; count: number }> {
  const found = await workbooksIn(folder);
  const kept = await Kept.read(path, program);
  const next = await kept.next();
  const looked = new Map(found.map((each) => [each.workbook, each]));
  let [bad, done] = [0, 0];
  const put = async (each: Looked, lines: readonly RegisterLine[]) => {
    if (lines.some(({ error }) => error !== null)) bad++;
    progress(`${++done} of ${found.length}: ${each.workbook}`);
    await next.put(each, lines);
  };
  try {
    const anew: Looked[] = [];
    for (const each of found) {
      const lines = await kept.linesOf(each, join(folder, each.workbook));
      if (lines) await put(each, lines);
      else anew.push(each);
    }
    await readAll(
      anew.map(({ workbook }) => ({ folder, workbook })),
      ownProgram(),
      (task, lines) => put(looked.get(task.workbook)!, lines),
      ({ workbook }, why) => [errorLine(workbook, why)],
    );
    progress('');
    if (anew.length < found.length) say(`${anew.length} read, ${found.length - anew.length} unchanged.`);
    await next.done();
  } catch (error) {
    await next.away();
    throw error;
  }
  return { bad, count: found.length };
}

/** The bundled program, which is its own worker; sources cannot be. */
function ownProgram(): URL | undefined {
  return isMainThread && import.meta.url.endsWith('.mjs') ? new URL(import.meta.url) : undefined;
}

/** Workbooks of a folder and of the folders in it, without those that a program holds open as `~$…`. */
async function workbooksIn(folder: string): Promise<Looked[]> {
  const found: Looked[] = [];
  const walk = async (at: string) => {
    for await (const entry of await opendir(at)) {
      const path = join(at, entry.name);
      if (entry.isDirectory()) await walk(path);
      else if (/\.xlsx$/i.test(entry.name) && !entry.name.startsWith('~$')) {
        const { size, mtimeMs } = await stat(path);
        found.push({ workbook: relative(folder, path).split(sep).join('/'), size, modified: mtimeMs });
      }
    }
  };
  await walk(folder).catch((cause: unknown) => {
    throw new Failure(`${folder} cannot be read: ${reasonOf(cause, 'there is no such folder')}.`, '', {
      cause,
    });
  });
  if (found.length === 0) throw new Failure(`${folder} has no .xlsx workbook.`);
  return found.sort((a, b) => (a.workbook < b.workbook ? -1 : 1));
}

async function write(kept: string, output: string, ending: string): Promise<void> {
  if (ending === 'parquet') {
    await withEngine(kept, (engine) => engine.toParquet(output));
    return;
  }
  if (ending === 'jsonl') return writeLines(kept, output, asJson);
  await writeLines(
    kept,
    output,
    (lines) => csvText(lines.map((each) => NAMES.map((name) => each[name]))),
    csvText([NAMES]),
  );
}

const asJson = (lines: readonly RegisterLine[]) => lines.map((each) => `${JSON.stringify(each)}\n`).join('');

async function writeLines(
  kept: string,
  output: string,
  text: (lines: readonly RegisterLine[]) => string,
  head = '',
): Promise<void> {
  async function* parts() {
    yield head;
    for await (const lines of linesIn(kept)) yield text(lines);
  }
  await pipeline(parts, createWriteStream(output));
}

/** The engine over the lines of a kept file, put one below another for it. */
async function withEngine<T>(
  kept: string,
  work: (engine: Awaited<ReturnType<typeof openEngine>>) => Promise<T>,
): Promise<T> {
  const lines = `${kept}.${process.pid}.jsonl`;
  try {
    await writeLines(kept, lines, asJson).catch((cause: unknown) => {
      throw unwritten(lines, cause);
    });
    const engine = await openEngine(lines);
    try {
      return await work(engine);
    } finally {
      engine.close();
    }
  } finally {
    await rm(lines, { force: true });
  }
}

async function answer(kept: string, sql: string, format: CommandLine['format']): Promise<void> {
  const { columns, rows } = await withEngine(kept, (engine) => engine.ask(sql));
  if (format === 'json')
    printJson(rows.map((row) => Object.fromEntries(columns.map((name, i) => [name, row[i]]))));
  else if (format === 'csv') print(csvText([columns, ...rows]));
  else print(tableText({ columns, rows }));
}

function tableText({ columns, rows }: Answer): string {
  const texts = [columns, ...rows.map((row) => row.map((value) => (value === null ? '' : String(value))))];
  const widths = columns.map((_, i) => Math.min(60, Math.max(...texts.map((row) => row[i]!.length))));
  return texts
    .map((row) =>
      row
        .map((text, i) => text.padEnd(widths[i]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

async function writeAgeing(
  kept: string,
  serial: string,
  mode: string | undefined,
  output: string,
  force: boolean,
) {
  const own: RegisterLine[] = [];
  for await (const lines of linesIn(kept))
    own.push(...lines.filter((each) => isOfUnit(each, serial) && (mode === undefined || each.mode === mode)));
  if (own.length === 0) throw new Failure(`No workbook has white light output of a unit “${serial}”.`);
  const { book, taken, without } = ageingOf(serial, own, newId());
  await writeBuilt(output, book, force);
  say(`${output}: ${taken} measurements of “${serial}”`);
  for (const { workbook, sheet, date, value } of without)
    say(
      `Not taken, since no sheet states its hours: ${workbook}, “${sheet}”, ${date ?? 'no date'}, ${value} lm`,
    );
}
