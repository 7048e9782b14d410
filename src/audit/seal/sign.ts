import { base64url, fromBase64url, utf8 } from './bytes';
import { type SealRecord, type Signature, unsignedText } from './record';
import type { Subtle } from './subtle';

/** A key pair of the user: the private key never leaves the user's hands and is never stored. */
export interface Signer<Key> {
  readonly privateKey: Key;
  /** Coordinates of the public key, base64url, as in its JSON Web Key. */
  readonly publicKey: PublicKey;
}
export interface PublicKey {
  readonly x: string;
  readonly y: string;
}

const ALGORITHM = { name: 'ECDSA', hash: 'SHA-256' } as const;

/**
 * What is signed: the whole record, with the sheet's id, the workbook's mark, the sequence number and the hash
 * of the contents, so that a signature fits no other sheet, workbook or earlier state.
 */
function signedBytes(record: SealRecord): Uint8Array<ArrayBuffer> {
  return utf8(`light-seal-signature|1|${unsignedText(record)}`);
}

export async function signRecord<Key>(
  subtle: Subtle<Key>,
  { privateKey, publicKey }: Signer<Key>,
  record: SealRecord,
): Promise<SealRecord> {
  const value = await subtle.sign(ALGORITHM, privateKey, signedBytes(record));
  return {
    ...record,
    signature: { x: publicKey.x, y: publicKey.y, value: base64url(new Uint8Array(value)) },
  };
}

/** Whether the record's own signature fits the record and the key stored with it. */
export async function isSignatureValid<Key>(
  subtle: Subtle<Key>,
  record: SealRecord & { signature: Signature },
): Promise<boolean> {
  const { x, y, value } = record.signature;
  const bytes = fromBase64url(value);
  if (!bytes) return false;
  // A point that is not on the curve is refused by the platform with an error.
  const key = await subtle
    .importKey('jwk', { kty: 'EC', crv: 'P-256', x, y }, { name: 'ECDSA', namedCurve: 'P-256' }, false, [
      'verify',
    ])
    .catch(() => undefined);
  return key !== undefined && (await subtle.verify(ALGORITHM, key, bytes, signedBytes(record)));
}

/** A key's thumbprint (RFC 7638, SHA-256, base64url): short enough to read out on the telephone. */
export async function thumbprint(
  subtle: Pick<Subtle<unknown>, 'digest'>,
  { x, y }: PublicKey,
): Promise<string> {
  const bytes = await subtle.digest('SHA-256', utf8(thumbprintText({ x, y })));
  return base64url(new Uint8Array(bytes));
}

/** What the thumbprint of a key is the digest of. */
export function thumbprintText({ x, y }: PublicKey): string {
  return `{"crv":"P-256","kty":"EC","x":"${x}","y":"${y}"}`;
}
