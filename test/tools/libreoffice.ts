import { type ChildProcess, spawn } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Book } from '../../src/sheets/book';
import { readForeign } from './foreign';

const SOFFICE = process.env.SOFFICE ?? '/usr/bin/soffice';

/** Calc trusts the results stored in .xlsx files of other programs unless told "always recalculate" (0). */
const settings = (locale: string) => `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>${locale}</value></prop></item>
</oor:items>
`;

/**
 * What LibreOffice Calc makes of workbooks: it opens each file, recalculates every formula and saves; a second
 * reader, not ours, takes the values. They keep 15 significant digits. One program run serves all files.
 */
export async function recalculate(
  files: readonly Uint8Array[],
  timeout = 120_000,
  locale = 'en-US',
): Promise<Book[]> {
  const saved = await convert(files, 'xlsx', timeout, locale);
  return Promise.all(saved.map(readForeign));
}

/**
 * Converts files with LibreOffice, recalculated, in a profile of its own, so that runs beside each other and a
 * person's open LibreOffice do not meet.
 *
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
    const profile = join(folder, 'profile');
    await mkdir(join(profile, 'user'), { recursive: true });
    await writeFile(join(profile, 'user', 'registrymodifications.xcu'), settings(locale));
    const ending = from === 'xlsx' ? 'xlsx' : 'csv';
    const inputs = files.map((_, at) => join(folder, `${at}.${ending}`));
    await Promise.all(inputs.map((path, at) => writeFile(path, files[at]!)));
    const out = join(folder, 'out');
    const words = await run(
      [
        `-env:UserInstallation=${pathToFileURL(profile)}`,
        '--headless',
        '--norestore',
        '--nolockcheck',
        ...(from === 'xlsx' ? [] : [`--infilter=CSV:${from.csv}`]),
        '--convert-to',
        format,
        '--outdir',
        out,
        ...inputs,
      ],
      timeout,
    );
    return await Promise.all(
      files.map((_, at) =>
        readFile(join(out, `${at}.${format}`)).catch((cause: unknown) => {
          throw new Error(`LibreOffice made no file of workbook ${at}: ${words}`, { cause });
        }),
      ),
    );
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Runs soffice to its end and returns what it printed. */
function run(args: readonly string[], timeout: number): Promise<string> {
  return new Promise((resolve, reject) => {
    // A process group of its own: soffice is a script that starts the program that does the work.
    const child = spawn(SOFFICE, args, { detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
    let words = '';
    let isLate = false;
    const timer = setTimeout(() => {
      isLate = true;
      killGroup(child);
    }, timeout);
    const listen = (text: Buffer) => {
      words += text.toString();
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
    child.on('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    // Whatever soffice started and left behind would keep its output open, and us waiting for the end of it.
    child.on('exit', () => killGroup(child));
    child.on('close', (code) => {
      clearTimeout(timer);
      if (isLate) reject(new Error(`LibreOffice took longer than ${timeout} ms`));
      else if (code === 0) resolve(words);
      else reject(new Error(`LibreOffice ended with ${code}: ${words}`));
    });
  });
}

function killGroup({ pid }: ChildProcess): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch (error) {
    // Nobody left in the group: what we wanted.
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
  }
}
