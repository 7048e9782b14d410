import { chmod, readFile, stat, writeFile } from 'node:fs/promises';
import type { Book } from '../sheets/book';
import { readXlsx, type WriteOptions, writeXlsx } from '../xlsx';
import { Failure } from './failure';
import { say } from './output';

/** Larger than any workbook or list of readings we read; looked at before a byte is read. */
const FILE_MAX = 16_000_000;
const TEXT_MAX = 4_000_000;

/** @throws Failure, or XlsxError for what is no workbook. */
export async function readBook(path: string): Promise<Book> {
  return readXlsx(await readBytes(path));
}

/** The bytes of a workbook. @throws Failure */
export async function readBytes(path: string): Promise<Uint8Array> {
  return new Uint8Array(await bytesOf(path, FILE_MAX));
}

/** A text file in UTF-8. @throws Failure */
export async function readText(path: string): Promise<string> {
  const bytes = await bytesOf(path, TEXT_MAX);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    throw new Failure(`${path} is not a text file in UTF-8.`, 'Save it as UTF-8.', { cause });
  }
}

/** A JSON file. @throws Failure */
export async function readJson(path: string): Promise<unknown> {
  const text = await readText(path);
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new Failure(`${path} is not valid JSON: ${(cause as Error).message}`, '', { cause });
  }
}

async function bytesOf(path: string, most: number): Promise<Buffer> {
  try {
    const { size } = await stat(path);
    if (size > most) throw new Failure(`${path} has ${size} bytes; at most ${most} are read.`);
    return await readFile(path);
  } catch (cause) {
    if (cause instanceof Failure) throw cause;
    throw new Failure(`${path} cannot be read: ${reasonOf(cause, 'there is no such file')}.`, '', { cause });
  }
}

/** What the system says of a file, in words. */
function reasonOf(cause: unknown, absent: string): string {
  const { code = '', message } = cause as NodeJS.ErrnoException;
  const words: Readonly<Record<string, string>> = {
    ENOENT: absent,
    ENOTDIR: 'a folder of its path is a file',
    EISDIR: 'it is a folder',
    EACCES: 'its owner does not allow it',
    EPERM: 'its owner does not allow it',
    EROFS: 'the disk may only be read',
    ENOSPC: 'the disk is full',
  };
  return words[code] ?? message;
}

async function writeBook(
  path: string,
  book: Book,
  force: boolean,
  options: WriteOptions = {},
): Promise<void> {
  await writeOut(path, await writeXlsx(book, options), force);
}

/** Says at once that a file exists, before long work is done for it. @throws Failure */
export async function freeToWrite(path: string, force: boolean): Promise<void> {
  const isThere = !force && (await stat(path).catch(() => undefined)) !== undefined;
  if (isThere) throw exists(path);
}

function exists(path: string, cause?: unknown): Failure {
  return new Failure(`${path} exists already.`, 'Choose another name, or add --force.', { cause });
}

/**
 * A workbook that was built here. Programs that open it are asked to calculate only if something is left: without the
 * add-in they would turn good results of its functions into #NAME?.
 */
export async function writeBuilt(path: string, book: Book, force: boolean): Promise<void> {
  const open = book.sheets.filter(({ cells }) =>
    Object.values(cells).some(({ formula, value }) => formula !== undefined && value === null),
  );
  await writeBook(path, book, force, { recalculate: open.length > 0 });
  for (const { name } of open)
    say(`"${name}" has results that are not calculated here; the program that opens the file does it.`);
}

/** For all to read, for the owner to write. */
const PUBLIC = 0o644;

function absent(cause: NodeJS.ErrnoException): void {
  if (cause.code !== 'ENOENT') throw cause;
}

/** Writes a new file; an existing one only when told to. @throws Failure */
export async function writeOut(
  path: string,
  contents: Uint8Array | string,
  force: boolean,
  mode = PUBLIC,
): Promise<void> {
  try {
    // A file that is there keeps its mode: others must not be able to read on while a secret is put into it.
    if (force && mode !== PUBLIC) await chmod(path, mode).catch(absent);
    await writeFile(path, contents, { flag: force ? 'w' : 'wx', mode });
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'EEXIST') {
      throw exists(path, cause);
    }
    const reason = reasonOf(cause, 'the folder it should be in is not there');
    throw new Failure(`${path} cannot be written: ${reason}.`, '', { cause });
  }
}
