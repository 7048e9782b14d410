/** Text → UTF-8. Half a surrogate pair, which no UTF-8 can hold, becomes U+FFFD as everywhere else. */
export function utf8(text: string): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(text.length * 3);
  let end = 0;
  const put = (byte: number) => {
    bytes[end++] = byte;
  };
  for (let at = 0; at < text.length; at++) {
    const point = text.codePointAt(at)!;
    // A pair of surrogates is one character.
    if (point > 0xffff) at++;
    const code = point >= 0xd800 && point <= 0xdfff ? 0xfffd : point;
    if (code < 0x80) put(code);
    else {
      if (code < 0x800) put(0xc0 | (code >> 6));
      else {
        if (code < 0x10000) put(0xe0 | (code >> 12));
        else {
          put(0xf0 | (code >> 18));
          put(0x80 | ((code >> 12) & 63));
        }
        put(0x80 | ((code >> 6) & 63));
      }
      put(0x80 | (code & 63));
    }
  }
  return bytes.slice(0, end);
}

export function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/** Base 64 with `-` and `_` and no padding (RFC 4648, section 5). */
export function base64url(bytes: Uint8Array): string {
  let out = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [a, b, c] = [bytes[at]!, bytes[at + 1], bytes[at + 2]];
    const bits = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    const digits = [bits >> 18, (bits >> 12) & 63, (bits >> 6) & 63, bits & 63];
    out += digits
      .slice(0, b === undefined ? 2 : c === undefined ? 3 : 4)
      .map((digit) => ALPHABET[digit])
      .join('');
  }
  return out;
}

/** The bytes of a base64url text; undefined if it is none. */
export function fromBase64url(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return undefined;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let [bits, held, end] = [0, 0, 0];
  for (const letter of text) {
    bits = ((bits << 6) | ALPHABET.indexOf(letter)) & 0xfffff;
    held += 6;
    if (held >= 8) {
      held -= 8;
      bytes[end++] = (bits >> held) & 0xff;
    }
  }
  return bytes;
}

/**
 * 24 bits of a text as four characters, to tell which entry of a sealed sheet differs (FNV-1a, folded). It is no
 * protection: that is the SHA-256 over all entries.
 */
export function mark(text: string): string {
  let h = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) {
    h = Math.imul(h ^ text.charCodeAt(at), 0x01000193);
  }
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  h ^= h >>> 12;
  const folded = ((h >>> 8) ^ (h << 16)) & 0xffffff;
  return [folded >>> 18, (folded >>> 12) & 63, (folded >>> 6) & 63, folded & 63]
    .map((digit) => ALPHABET[digit])
    .join('');
}
