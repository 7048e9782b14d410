import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Book } from '../../src/sheets/book';
import { readForeign } from './foreign';
import { Office } from './office';

/**
 * What LibreOffice Calc makes of workbooks: it opens each file, recalculates every formula and saves; a second
 * reader, not ours, takes the values. They keep 15 significant digits. One call serves all files.
 */
export async function recalculate(
  files: readonly Uint8Array[],
  timeout = 120_000,
  locale = 'en-US',
): Promise<Book[]> {
  const saved = await convert(files, 'xlsx', timeout, locale);
  return Promise.all(saved.map(readForeign));
}

/** The running programs of this worker by their locale; each serves one call at a time. */
const offices = new Map<string, Office>();
let last: Promise<unknown> = Promise.resolve();

/**
 * Converts files with LibreOffice, recalculated. The program is started at the first call in a profile of the worker's
 * own, so that workers and a person's open LibreOffice do not meet, and serves the further calls too. One that hangs
 * or dies is started anew and asked once more.
 *
 * @param timeout in ms, of one attempt
 * @param locale of whoever opens them, e.g. `de-DE`, where a comma stands before decimals
 * @param from what the files are; of separated values also how they are read, as `--infilter` takes it
 * @throws Error with the program's own words if it fails, makes no file, or takes longer than `timeout` ms.
 */
export async function convert(
  files: readonly Uint8Array[],
  format: 'xlsx' | 'pdf',
  timeout = 120_000,
  locale = 'en-US',
  from: 'xlsx' | { readonly csv: string } = 'xlsx',
): Promise<Uint8Array[]> {
  const folder = await mkdtemp(join(tmpdir(), 'recalculate-'));
  try {
    const ending = from === 'xlsx' ? 'xlsx' : 'csv';
    const inputs = files.map((_, at) => join(folder, `${at}.${ending}`));
    await Promise.all(inputs.map((path, at) => writeFile(path, files[at]!)));
    const out = join(folder, 'out');
    const infilter = from === 'xlsx' ? [] : [`--infilter=CSV:${from.csv}`];
    const args = [...infilter, '--convert-to', format, '--outdir', out, ...inputs];
    const attempt = async () => {
      const words = await call(args, timeout, locale);
      return Promise.all(
        files.map((_, at) =>
          readFile(join(out, `${at}.${format}`)).catch((cause: unknown) => {
            throw new Error(`LibreOffice made no file of workbook ${at}: ${words}`, { cause });
          }),
        ),
      );
    };
    return await attempt().catch((error: unknown) => {
      if (error instanceof Gone) return attempt();
      throw error;
    });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The program hung or ended: one started anew may do better. */
class Gone extends Error {}

/** Waits for its turn and lets the program of the locale do it. */
function call(args: readonly string[], timeout: number, locale: string): Promise<string> {
  const turn = last.then(async () => {
    const signal = AbortSignal.timeout(timeout);
    let office = offices.get(locale);
    try {
      if (!office?.isRunning) {
        office = await Office.start(locale, signal);
        offices.set(locale, office);
      }
      return await office.run(args, signal);
    } catch (cause) {
      await office?.stop();
      const late = `LibreOffice took longer than ${timeout} ms`;
      throw new Gone(signal.aborted ? late : String(cause), { cause });
    }
  });
  last = turn.catch(() => undefined);
  return turn;
}
