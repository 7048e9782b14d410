import type { PublicKey } from './sign';

/** A private key as a file holds it: a JSON Web Key (RFC 7517) for ECDSA P-256. */
export interface PrivateJwk extends PublicKey {
  readonly kty: 'EC';
  readonly crv: 'P-256';
  readonly d: string;
}

/** A coordinate of P-256: 32 bytes in base64url. */
const COORDINATE = /^[A-Za-z0-9_-]{43}$/;
const isCoordinate = (value: unknown): value is string => typeof value === 'string' && COORDINATE.test(value);

/** The public key in what a file holds, be it a public or a private key; undefined if it is none for ECDSA P-256. */
export function publicKeyOf(json: unknown): PublicKey | undefined {
  if (typeof json !== 'object' || json === null) return undefined;
  const { kty, crv, x, y } = json as Record<string, unknown>;
  return kty === 'EC' && crv === 'P-256' && isCoordinate(x) && isCoordinate(y) ? { x, y } : undefined;
}

/** The private key in what a file holds; whatever else stands there is left out. */
export function privateKeyOf(json: unknown): PrivateJwk | undefined {
  const open = publicKeyOf(json);
  const { d } = (json ?? {}) as Record<string, unknown>;
  return open && isCoordinate(d) ? { kty: 'EC', crv: 'P-256', ...open, d } : undefined;
}

/** A public key as a file. */
export function publicKeyFile({ x, y }: PublicKey): string {
  return `${JSON.stringify({ kty: 'EC', crv: 'P-256', x, y })}\n`;
}
