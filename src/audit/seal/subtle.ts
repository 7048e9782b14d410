/**
 * What we need of Web Crypto's `SubtleCrypto`, which browsers and Node both have; it is handed in, so that this
 * room stays free of both. `Key` is the platform's `CryptoKey`.
 */
export interface Subtle<Key> {
  digest(algorithm: 'SHA-256', data: Uint8Array<ArrayBuffer>): Promise<ArrayBuffer>;
  importKey(
    format: 'jwk',
    keyData: { kty: string; crv: string; x: string; y: string },
    algorithm: { name: 'ECDSA'; namedCurve: 'P-256' },
    extractable: boolean,
    keyUsages: 'verify'[],
  ): Promise<Key>;
  sign(
    algorithm: { name: 'ECDSA'; hash: 'SHA-256' },
    key: Key,
    data: Uint8Array<ArrayBuffer>,
  ): Promise<ArrayBuffer>;
  verify(
    algorithm: { name: 'ECDSA'; hash: 'SHA-256' },
    key: Key,
    signature: Uint8Array<ArrayBuffer>,
    data: Uint8Array<ArrayBuffer>,
  ): Promise<boolean>;
}
