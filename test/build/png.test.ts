import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { tighten } from '../../src/build/png';

/** Chunks of a PNG file (RFC 2083, "File structure"): type and data; the pixels of all IDAT chunks as one. */
function chunks(png: Uint8Array): { others: string[]; pixels: Buffer } {
  const file = Buffer.from(png);
  const others: string[] = [];
  const packed: Buffer[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const type = file.toString('latin1', at + 4, at + 8);
    const data = file.subarray(at + 8, at + 8 + length);
    if (type === 'IDAT') packed.push(data);
    else others.push(`${type} ${data.toString('hex')} ${file.readUInt32BE(at + 8 + length)}`);
    at += length + 12;
  }
  return { others, pixels: inflateSync(Buffer.concat(packed)) };
}

test('a tightened picture has the same pixels and is no larger', () => {
  const before = readFileSync('taskpane/icons/icon-80.png');
  const after = tighten(before);
  expect(chunks(after)).toEqual(chunks(before));
  expect(after.length).toBeLessThanOrEqual(before.length);
  expect(tighten(after)).toEqual(after);
});
