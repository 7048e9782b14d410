import { crc32, deflateSync, inflateSync } from 'node:zlib';

/** Bytes before the first chunk of a PNG file, and around the data of each: length and type before, check after. */
const SIGNATURE = 8;
const HEAD = 8;
const CHECK = 4;

/** The same picture in fewer bytes: a browser packs its screenshots in a hurry. */
export function tighten(png: Uint8Array): Uint8Array {
  const file = Buffer.from(png);
  const parts: Uint8Array[] = [file.subarray(0, SIGNATURE)];
  const pixels: Uint8Array[] = [];
  for (let at = SIGNATURE; at < file.length; ) {
    const length = file.readUInt32BE(at);
    const end = at + HEAD + length + CHECK;
    const type = file.toString('latin1', at + 4, at + HEAD);
    if (type === 'IDAT') pixels.push(file.subarray(at + HEAD, at + HEAD + length));
    else {
      // All pixels stand together, before the end.
      if (type === 'IEND')
        parts.push(chunk('IDAT', deflateSync(inflateSync(Buffer.concat(pixels)), { level: 9 })));
      parts.push(file.subarray(at, end));
    }
    at = end;
  }
  return Buffer.concat(parts);
}

function chunk(type: string, data: Uint8Array): Buffer {
  const whole = Buffer.alloc(HEAD + data.length + CHECK);
  whole.writeUInt32BE(data.length, 0);
  whole.write(type, 4, 'latin1');
  whole.set(data, HEAD);
  whole.writeUInt32BE(crc32(whole.subarray(4, HEAD + data.length)), HEAD + data.length);
  return whole;
}
