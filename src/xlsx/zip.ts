import { Inflate } from 'fflate';
import { crc32 } from './crc';
import { damaged, XlsxError } from './error';

/** What a file may cost at most; a workbook of a few hundred measured units stays far below. */
export interface ZipLimits {
  /** Bytes of the file. */
  readonly file: number;
  /** Bytes of all parts together, unpacked. */
  readonly unpacked: number;
  readonly parts: number;
}

const SIGNATURE = { part: 0x04034b50, entry: 0x02014b50, end: 0x06054b50 } as const;
const END_SIZE = 22;
const COMMENT_MAX = 0xffff;
/** Packed bytes fed at a time: deflate expands at most 1032-fold, so one step makes at most 17 MB. */
const STEP = 1 << 14;

interface Entry {
  readonly path: string;
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly offset: number;
}

/**
 * Unpacks a zip file from an unknown hand. Trusts no size it states: unpacking stops at the first byte beyond
 * it, and the stated sizes together are bounded before anything is unpacked.
 *
 * @throws XlsxError `damaged`, `big` or `locked`.
 */
export function unzip(
  bytes: Uint8Array,
  limits: ZipLimits,
  wanted: (path: string) => boolean,
): Map<string, Uint8Array> {
  const view = viewOf(bytes);
  const entries = directory(bytes, view, limits);
  for (const entry of entries) checkName(bytes, view, entry);
  const total = entries.reduce((sum, { unpacked }) => sum + unpacked, 0);
  if (total > limits.unpacked) {
    throw tooBig(`${megabytes(total)} MB unpacked`, `${megabytes(limits.unpacked)} MB`);
  }
  return new Map(
    entries.filter(({ path }) => wanted(path)).map((entry) => [entry.path, unpack(bytes, view, entry)]),
  );
}

/** Paths of all parts, in the file's order, without unpacking one. */
export function listZip(bytes: Uint8Array, limits: ZipLimits): string[] {
  return directory(bytes, viewOf(bytes), limits).map(({ path }) => path);
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function directory(bytes: Uint8Array, view: DataView, limits: ZipLimits): Entry[] {
  if (bytes.length > limits.file)
    throw tooBig(`${megabytes(bytes.length)} MB`, `${megabytes(limits.file)} MB`);
  let end = bytes.length - END_SIZE;
  const first = Math.max(0, end - COMMENT_MAX);
  while (end >= first && view.getUint32(end, true) !== SIGNATURE.end) end--;
  if (end < first) throw damaged('its table of contents is missing, as in a file that was cut short');
  const count = view.getUint16(end + 10, true);
  if (count > limits.parts) throw tooBig(`${count} parts`, `${limits.parts} parts`);
  // Stated twice. A smaller count, taken at its word, would leave out the last parts without a word.
  if (view.getUint16(end + 8, true) !== count) throw damaged('its table of contents is broken');
  const entries: Entry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let n = 0; n < count; n++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== SIGNATURE.entry) {
      throw damaged('its table of contents is broken');
    }
    const nameEnd = at + 46 + view.getUint16(at + 28, true);
    entries.push({
      path: nameIn(bytes, at + 46, nameEnd),
      method: view.getUint16(at + 10, true),
      isEncrypted: (view.getUint16(at + 8, true) & 1) === 1,
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      unpacked: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    });
    at = nameEnd + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  if (at + 4 <= bytes.length && view.getUint32(at, true) === SIGNATURE.entry) {
    throw damaged('its table of contents lists fewer parts than it has');
  }
  const seen = new Set<string>();
  for (const { path } of entries) {
    // Names of parts are the same in capitals (ECMA-376-2, 9.1.1.1); the last of two would hide the first.
    if (seen.has(path.toLowerCase())) throw damaged(`its part ${path} is there twice`);
    seen.add(path.toLowerCase());
  }
  return entries;
}

/** The name stands twice; where the two differ, one was damaged, and a part would be missed without a word. */
function checkName(bytes: Uint8Array, view: DataView, { path, offset }: Entry): void {
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== SIGNATURE.part) {
    throw damaged(`its part ${path} is missing`);
  }
  const name = nameIn(bytes, offset + 30, offset + 30 + view.getUint16(offset + 26, true));
  if (name !== path) throw damaged(`its part ${path} goes by two names`);
}

/** Some programs write backslashes between folders, which the format does not know (APPNOTE.TXT, 4.4.17.1). */
function nameIn(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, to)).replaceAll('\\', '/');
}

function unpack(bytes: Uint8Array, view: DataView, entry: Entry): Uint8Array {
  const { path, method, isEncrypted, crc, packed, unpacked, offset } = entry;
  if (isEncrypted) {
    throw new XlsxError('locked', 'The file is encrypted.', 'Save it without a password and open it again.');
  }
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  const data = bytes.subarray(start, start + packed);
  if (data.length < packed) throw damaged(`its part ${path} is cut short`);
  const whole = method === 0 ? data : method === 8 ? inflate(data, unpacked, path) : undefined;
  if (!whole) throw damaged(`its part ${path} is packed in a way no workbook is`);
  if (whole.length !== unpacked || crc32(whole) !== crc)
    throw damaged(`its part ${path} is not what was saved`);
  return whole;
}

function inflate(data: Uint8Array, size: number, path: string): Uint8Array {
  const whole = new Uint8Array(size);
  let filled = 0;
  const stream = new Inflate((chunk) => {
    if (filled + chunk.length > size) throw damaged(`its part ${path} is larger than it says`);
    whole.set(chunk, filled);
    filled += chunk.length;
  });
  try {
    for (let from = 0; from < data.length; from += STEP) {
      stream.push(data.subarray(from, from + STEP), from + STEP >= data.length);
    }
  } catch (cause) {
    if (cause instanceof XlsxError) throw cause;
    throw damaged(`its part ${path} cannot be unpacked`, { cause });
  }
  return whole.subarray(0, filled);
}

function tooBig(is: string, most: string): XlsxError {
  return new XlsxError(
    'big',
    `The file is too big: ${is}; at most ${most} are read.`,
    'Save the sheets you need in a file of their own.',
  );
}

function megabytes(bytes: number): number {
  return Math.ceil(bytes / 1_000_000);
}
