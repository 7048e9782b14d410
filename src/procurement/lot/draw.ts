import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { bad, good, invalid, missing, type Outcome, type Problem } from '../../photometry/outcome';
import { notWhole } from '../check';
import { serialKey, serialText } from './serials';

/** A draw that anybody can repeat with the list, the seed and any program that knows SHA-256. */
export interface Draw {
  readonly seed: string;
  /** Units of the list. */
  readonly lotSize: number;
  /** SHA-256 of the list in order, one serial a line: shows later that no serial was added or taken away. */
  readonly listFingerprint: string;
  /** The sample, in the order drawn. A larger sample begins with a smaller one. */
  readonly drawn: readonly Ticket[];
  /** How it was done, for the record. */
  readonly method: string;
}

interface Ticket {
  readonly serial: string;
  /** SHA-256 of seed, line feed, serial. */
  readonly ticket: string;
}

export const DRAW_METHOD =
  'Each serial gets a ticket: SHA-256 of the seed, a line feed and the serial (UTF-8, NFC, no space at either end). The serials with the smallest tickets are the sample.';

/**
 * Draws `size` serials without replacement. Every serial's ticket depends on the seed and itself only, so the
 * order of the list does not matter and the sample is the same on every machine. The draw is as fair as
 * the seed: fix it in front of both parties after the list is closed, say by dice.
 */
export function drawSample(serials: readonly string[], size: number, seed: string): Outcome<Draw> {
  const list = serials.map(serialText);
  const key = serialText(seed);
  const problems = [...listProblems(list, (serial) => serial), ...sizeProblems(size, list.length)];
  if (key === '') problems.push(missing('seed', 'The seed is missing: any number or text agreed in public.'));
  if (problems.length > 0) return bad(...problems);
  const tickets = list.map((serial): Ticket => ({ serial, ticket: digest(`${key}\n${serial}`) }));
  tickets.sort((a, b) => compare(a.ticket, b.ticket) || compare(a.serial, b.serial));
  return good({
    seed: key,
    lotSize: list.length,
    listFingerprint: listFingerprint(list),
    drawn: tickets.slice(0, size),
    method: DRAW_METHOD,
  });
}

/** SHA-256 of the serials in code-unit order, one a line, the last one with a line feed too. */
export function listFingerprint(serials: readonly string[]): string {
  const sorted = serials.map(serialText).sort(compare);
  return digest(sorted.map((serial) => `${serial}\n`).join(''));
}

function digest(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/** By code units: the order of a language would differ between machines. */
function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

function sizeProblems(size: number, lotSize: number): Problem[] {
  const problems = notWhole(size, 'sample size', 1);
  if (problems.length > 0 || size <= lotSize) return problems;
  return [
    missing(
      'serials',
      `The list holds ${lotSize} serials; ${size} are to be drawn. List every unit of the lot.`,
    ),
  ];
}

/**
 * What is wrong with a list of serials: blank ones and such as are listed twice.
 *
 * @param keyOf a draw is repeated from lists of any time, and tells serials apart by the letters of their tickets
 */
export function listProblems(
  list: readonly string[],
  keyOf: (serial: string) => string = serialKey,
): Problem[] {
  const blank = list.flatMap((serial, i) =>
    serial === '' ? [missing(`serial in row ${i + 1}`, `The serial in row ${i + 1} is missing.`)] : [],
  );
  const times = new Map<string, number>();
  for (const serial of list.map(keyOf)) if (serial !== '') times.set(serial, (times.get(serial) ?? 0) + 1);
  const repeated = [...times].flatMap(([serial, count]) =>
    count === 1
      ? []
      : [
          invalid(
            'choice',
            'serials',
            `The serial "${serial}" is listed ${count} times; each unit is listed once.`,
          ),
        ],
  );
  return [...blank, ...repeated];
}
