import { applyEdits } from '../../src/audit/seal/edits';
import { type SealRequest, seal } from '../../src/audit/seal/seal';
import type { Signer } from '../../src/audit/seal/sign';
import type { Book } from '../../src/sheets/book';

let ids = 0;

/** Seals one sheet, by default as an invented person at a fixed time. */
export async function sealed(book: Book, at = 0, more: Partial<SealRequest<CryptoKey>> = {}): Promise<Book> {
  const answer = await seal(book, book.sheets[at]!.name, {
    who: 'A. Nobody',
    when: '2026-11-25T09:30:00Z',
    program: '0.0.0',
    subtle: crypto.subtle,
    newId: () => `test${++ids}`,
    ...more,
  });
  if (!answer.ok) throw new Error(answer.why);
  return applyEdits(book, answer.edits);
}

/** A fresh key pair. */
export async function newSigner(): Promise<Signer<CryptoKey>> {
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, true, [
    'sign',
    'verify',
  ]);
  const { x, y } = await crypto.subtle.exportKey('jwk', pair.publicKey);
  return { privateKey: pair.privateKey, publicKey: { x: x!, y: y! } };
}
