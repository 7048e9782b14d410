import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { pipeline } from 'node:stream/promises';
import { unwritten } from '../files';
import type { RegisterLine } from './lines';

/** How a workbook's file looked when it was read. */
export interface Looked {
  readonly workbook: string;
  readonly size: number;
  readonly modified: number;
}
interface Entry extends Looked {
  readonly lines: readonly RegisterLine[];
}

const VERSION = 2;

/**
 * What workbooks said when they were read last, in a file beside the register: a line for each workbook. Of a file
 * that has the same size, time and bytes the lines are taken from it. Only where they stand is held in memory.
 */
export class Kept {
  private readonly places = new Map<string, Place>();

  private constructor(
    private readonly path: string,
    private readonly program: string,
  ) {}

  /** @param program its version: another one may read other things in a workbook */
  static async read(path: string, program: string): Promise<Kept> {
    const kept = new Kept(path, program);
    try {
      for await (const { at, length, key, text } of entriesIn(path)) {
        if (at === 0 && text !== headOf(program)) break;
        if (key !== undefined) kept.places.set(key, { at, length });
      }
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
    return kept;
  }

  /**
   * What a workbook said, if its file is as it was then, byte for byte: a time can be set, and a register that gives
   * a digest must not give an old one.
   *
   * @param path where the file stands now
   */
  async linesOf(looked: Looked, path: string): Promise<readonly RegisterLine[] | undefined> {
    const place = this.places.get(keyOf(looked));
    if (!place) return undefined;
    const file = await open(this.path);
    try {
      const { lines } = await entryAt(file, place);
      return lines.every(({ sha256 }) => sha256 !== null) && lines[0]?.sha256 === (await digestOf(path))
        ? lines
        : undefined;
    } catch {
      // What was kept is damaged: the workbook itself is read again.
      return undefined;
    } finally {
      await file.close();
    }
  }

  /** Begins the next one, which takes the place of this when it is whole. */
  next(): Promise<Keeping> {
    return Keeping.begin(this.path, headOf(this.program));
  }
}

/** The file as it is written. */
class Keeping {
  private constructor(
    private readonly path: string,
    private readonly fresh: string,
    private readonly file: FileHandle,
  ) {}

  /** @throws Failure, as all that writes here */
  static async begin(path: string, head: string): Promise<Keeping> {
    const fresh = `${path}.${process.pid}`;
    return told(path, async () => {
      const keeping = new Keeping(path, fresh, await open(fresh, 'w'));
      await keeping.file.appendFile(`${head}\n`).catch(async (cause: unknown) => {
        await keeping.away();
        throw cause;
      });
      return keeping;
    });
  }

  async put(looked: Looked, lines: readonly RegisterLine[]): Promise<void> {
    const entry: Entry = { workbook: looked.workbook, size: looked.size, modified: looked.modified, lines };
    await told(this.path, () => this.file.appendFile(`${JSON.stringify(entry)}\n`));
  }

  async done(): Promise<void> {
    await told(this.path, async () => {
      await this.file.close();
      await rename(this.fresh, this.path);
    });
  }

  async away(): Promise<void> {
    await this.file.close().catch(() => {});
    await rm(this.fresh, { force: true });
  }
}

async function told<T>(path: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (cause) {
    throw unwritten(path, cause);
  }
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}

function headOf(program: string): string {
  return JSON.stringify({ format: 'light-register-kept', version: VERSION, program });
}

function keyOf({ workbook, size, modified }: Looked): string {
  return `{"workbook":${JSON.stringify(workbook)},"size":${size},"modified":${modified}`;
}

/** All lines of a kept file, workbook by workbook in the order of their paths. Only their places are held in memory. */
export async function* linesIn(path: string): AsyncGenerator<readonly RegisterLine[]> {
  const places: { workbook: string; at: number; length: number }[] = [];
  for await (const { key, at, length } of entriesIn(path)) {
    if (key !== undefined) places.push({ workbook: workbookOf(key), at, length });
  }
  places.sort((a, b) => (a.workbook < b.workbook ? -1 : 1));
  const file = await open(path);
  try {
    for (const place of places) yield (await entryAt(file, place)).lines;
  } finally {
    await file.close();
  }
}

interface Place {
  readonly at: number;
  readonly length: number;
}

async function entryAt(file: FileHandle, { at, length }: Place): Promise<Entry> {
  const buffer = Buffer.alloc(length);
  await file.read(buffer, 0, length, at);
  return JSON.parse(buffer.toString('utf8'));
}

const KEY = /^\{"workbook":"(?:[^"\\]|\\.)*","size":\d+,"modified":[\d.]+/;

/** Lines of a kept file with their places; the first one is its head and has no key. */
async function* entriesIn(
  path: string,
): AsyncGenerator<Place & { readonly key?: string; readonly text: string }> {
  const input = createReadStream(path);
  let at = 0;
  for await (const text of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
    const length = Buffer.byteLength(text);
    const key = at === 0 ? undefined : KEY.exec(text)?.[0];
    yield { at, length, text, ...(key === undefined ? {} : { key }) };
    at += length + 1;
  }
}

function workbookOf(key: string): string {
  return JSON.parse(`${key}}`).workbook;
}
