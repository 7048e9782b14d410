import type { Book } from '../../sheets/book';
import { callsOurs } from '../../sheets/calls';
import { plainCopyOf } from '../plain';
import type { Finding } from './finding';

/**
 * In a plain copy a value in place of a function of ours is what was meant: worth knowing, not an error. Everything
 * else is found as in any workbook.
 */
export function inPlainCopy(findings: readonly Finding[], book: Pick<Book, 'names'>): readonly Finding[] {
  const made = plainCopyOf(book);
  if (made === undefined) return findings;
  return findings.map((finding): Finding => {
    const { kind, expected, at } = finding;
    if (kind !== 'constant' || at === undefined || !callsOurs(expected)) return finding;
    return {
      ...finding,
      severity: 'note',
      message: `In this plain copy of ${made} the result in ${at} stands as a value.`,
    };
  });
}
