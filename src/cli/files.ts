import { randomUUID } from 'node:crypto';
import {
  access,
  chmod,
  chown,
  constants,
  open,
  readFile,
  realpath,
  rename,
  rm,
  stat,
  writeFile,
} from 'node:fs/promises';
import { dirname } from 'node:path';
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
export function reasonOf(cause: unknown, absent: string): string {
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

/** Says at once that a file exists, or cannot be there, before long work is done for it. @throws Failure */
export async function freeToWrite(path: string, force: boolean): Promise<void> {
  const there = await stat(path).catch(() => undefined);
  if (there && !force) throw exists(path);
  if (there?.isDirectory()) throw unwritten(path, { code: 'EISDIR' });
  await stat(dirname(path)).catch((cause: unknown) => {
    throw unwritten(path, cause);
  });
}

/** Why a file is not written. */
export function unwritten(path: string, cause: unknown): Failure {
  const reason = reasonOf(cause, 'the folder it should be in is not there');
  return new Failure(`${path} cannot be written: ${reason}.`, '', { cause });
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

/** Writes a new file; an existing one only when told to. @throws Failure */
export async function writeOut(
  path: string,
  contents: Uint8Array | string,
  force: boolean,
  mode = PUBLIC,
): Promise<void> {
  await writeWhole(path, force, (to) => writeFile(to, contents), mode);
}

/**
 * Has a file written beside the one that is there, and puts it in its place when it is whole: a full disk costs no
 * workbook. What is no file (a pipe, a device) is written as it is.
 *
 * @param write writes the path it is given
 * @param mode of a new file; other than usual, of any
 * @throws Failure
 */
export async function writeWhole(
  path: string,
  force: boolean,
  write: (to: string) => Promise<void>,
  mode = PUBLIC,
): Promise<void> {
  // From here on the name is ours, whoever else may want it.
  const isNew = await open(path, 'wx', mode).then(
    (file) => file.close().then(() => true),
    (cause: NodeJS.ErrnoException) => {
      if (cause.code !== 'EEXIST') throw unwritten(path, cause);
      if (!force) throw exists(path, cause);
      return false;
    },
  );
  let fresh: string | undefined;
  try {
    const there = await stat(path).catch(() => undefined);
    if (!there?.isFile()) return await write(path);
    // A link stays, and what it points to is replaced.
    const target = await realpath(path);
    await access(target, constants.W_OK);
    fresh = `${target}.${randomUUID().slice(0, 8)}.new`;
    // Nobody else reads along while it is written: it may be a secret.
    await (await open(fresh, 'wx', 0o600)).close();
    await write(fresh);
    if (!isNew) await chown(fresh, there.uid, there.gid).catch(() => {});
    await chmod(fresh, mode === PUBLIC ? there.mode & 0o777 : mode);
    await rename(fresh, target);
  } catch (cause) {
    for (const left of [fresh, isNew ? path : undefined])
      if (left !== undefined) await rm(left, { force: true }).catch(() => {});
    throw (cause as NodeJS.ErrnoException).code === undefined ? cause : unwritten(path, cause);
  }
}
