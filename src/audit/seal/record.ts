import { type Marks, readMarks, writeMarks } from './marks';

/** Forms of a seal: what the second covers and the first does not stands in FORMAT.md. */
export type SealVersion = 1 | 2;
export const SEAL_VERSION: SealVersion = 2;

/** What a seal keeps. All of it is plain data in hidden names; FORMAT.md gives the form. */
export interface SealRecord {
  readonly format: SealVersion;
  readonly kind: string;
  readonly version: number;
  readonly id: string;
  /** Mark of the workbook in which the sheet was sealed. */
  readonly book: string;
  /** 1 for the first seal of the sheet; counts on when it is reopened and sealed again. */
  readonly sequence: number;
  /** ISO time, UTC. */
  readonly when: string;
  readonly who: string;
  /** Version of the program that sealed. */
  readonly program: string;
  /** SHA-256 of the canonical form, 64 hexadecimal digits. */
  readonly hash: string;
  /** The same without results of formulas: what holds in a program that cannot compute them. */
  readonly builtHash: string;
  readonly marks: Marks;
  readonly signature?: Signature;
}

/** What of a record stands in the canonical form itself, so that it cannot be changed without a signature either. */
export type Head = Pick<
  SealRecord,
  'format' | 'kind' | 'version' | 'id' | 'book' | 'sequence' | 'when' | 'who' | 'program'
>;

export interface Signature {
  /** Public key, ECDSA P-256: coordinates in base64url. */
  readonly x: string;
  readonly y: string;
  /** r and s, 64 bytes, base64url. */
  readonly value: string;
}

const FORMAT = 'light-seal';
const WHO_MAX = 200;

/** The part of a record that a signature covers: all but the signature. */
export function unsignedText(record: SealRecord): string {
  const { format, kind, version, id, book, sequence, when, who, program, hash, builtHash, marks } = record;
  return [
    FORMAT,
    format,
    kind,
    version,
    id,
    book,
    sequence,
    when,
    words(who),
    words(program),
    hash,
    builtHash,
    ...writeMarks(marks),
  ].join('|');
}

export function recordText(record: SealRecord): string {
  const { signature } = record;
  return `${unsignedText(record)}|${signature ? `${signature.x}.${signature.y}.${signature.value}` : ''}`;
}

/** A stored record, from any hand; undefined if it is damaged, `version` if it is newer than we know. */
export function parseRecord(text: string): SealRecord | 'newer' | undefined {
  const fields = text.split('|');
  if (fields[0] !== FORMAT) return undefined;
  if (Number(fields[1]) > SEAL_VERSION) return 'newer';
  const format = ([1, 2] as const).find((each) => String(each) === fields[1]);
  if (format === undefined) return undefined;
  const [, , kind, version, id, book, sequence, when, who, program, hash, builtHash] = fields;
  const marks = readMarks(fields.slice(12, 17));
  const signature = parseSignature(fields[17] ?? '');
  const isSound =
    fields.length === 18 &&
    /^[a-z ]{1,30}$/.test(kind!) &&
    /^\d{1,6}$/.test(version!) &&
    /^[a-z0-9]{1,64}$/.test(id!) &&
    /^[a-z0-9]{1,64}$/.test(book!) &&
    /^\d{1,9}$/.test(sequence!) &&
    /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?Z$/.test(when!) &&
    /^[0-9a-f]{64}$/.test(hash!) &&
    /^[0-9a-f]{64}$/.test(builtHash!);
  const [name, tool] = [plain(who ?? ''), plain(program ?? '')];
  if (!isSound || !marks || signature === null || name === undefined || tool === undefined) return undefined;
  return {
    format,
    kind: kind!,
    version: Number(version),
    id: id!,
    book: book!,
    sequence: Number(sequence),
    when: when!,
    who: name,
    program: tool,
    hash: hash!,
    builtHash: builtHash!,
    marks,
    ...(signature ? { signature } : {}),
  };
}

function parseSignature(text: string): Signature | undefined | null {
  if (text === '') return undefined;
  const match = /^([A-Za-z0-9_-]{43})\.([A-Za-z0-9_-]{43})\.([A-Za-z0-9_-]{86})$/.exec(text);
  return match ? { x: match[1]!, y: match[2]!, value: match[3]! } : null;
}

/** Free text as one field: percent-encoded, bounded, without half surrogates, which cannot be encoded. */
export function words(text: string): string {
  const whole = text.replace(
    /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g,
    '\uFFFD',
  );
  return encodeURIComponent([...whole].slice(0, WHO_MAX).join(''));
}

/** The text of such a field; undefined if it is damaged. */
export function plain(field: string): string | undefined {
  if (field.length > 20 * WHO_MAX || /%(?![0-9A-F]{2})/i.test(field)) return undefined;
  try {
    return decodeURIComponent(field);
  } catch (error) {
    if (error instanceof URIError) return undefined;
    throw error;
  }
}
