import type { Book } from '../../sheets/book';
import { callsOurs } from '../../sheets/calls';
import { NO_SEAL } from '../kinds/certificate/stamps';
import { isPlainNote, plainCopyOf } from '../plain';
import type { Finding } from './finding';

/**
 * In a plain copy a value in place of a function of ours is what was meant, and seals stay behind with the workbook
 * they seal: worth knowing, not an error. The copy's own words are no finding. Everything else is found as in any workbook.
 */
export function inPlainCopy(findings: readonly Finding[], book: Pick<Book, 'names'>): readonly Finding[] {
  const made = plainCopyOf(book);
  if (made === undefined) return findings;
  return findings.flatMap((finding): Finding | readonly [] => {
    const { sheet, kind, expected, found, at } = finding;
    if (at === undefined) return finding;
    const meant = { sheet, at, expected, found, severity: 'note' } as const;
    if (kind === 'constant' && callsOurs(expected)) {
      const message = `In this plain copy of ${made} the result in ${at} stands as a value.`;
      return { ...meant, kind: 'kept', message };
    }
    if (kind === 'stamp' && expected === NO_SEAL) {
      const message = `${at} speaks of a seal that stayed with the workbook this plain copy of ${made} was made of.`;
      return { ...meant, kind: 'stamp', message };
    }
    return kind === 'added' && isPlainNote(found, made) ? [] : finding;
  });
}
