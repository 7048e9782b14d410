import { inflateSync } from 'node:zlib';
import type { Raster } from './raster';

/** Bytes a pixel of the colour types that browsers write (PNG specification, third edition, 11.2.1): 2 RGB, 6 RGBA. */
const CHANNELS: Readonly<Record<number, number>> = { 2: 3, 6: 4 };

/** Reads a PNG of 8 bits a channel, not interlaced. Throws on anything else, and on pixels that are not opaque. */
export function readPng(file: Buffer): Raster {
  const chunks = chunksOf(file);
  const head = chunks.find(({ type }) => type === 'IHDR')!.data;
  const [width, height] = [head.readUInt32BE(0), head.readUInt32BE(4)];
  const channels = CHANNELS[head[9]!];
  if (!channels || head[8] !== 8 || head[12] !== 0)
    throw new Error(`A PNG of another kind: ${head.toString('hex')}`);
  const packed = Buffer.concat(chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data));
  const rows = unfilter(inflateSync(packed), width * channels, height, channels);
  return { width, height, rgb: channels === 3 ? rows : withoutAlpha(rows) };
}

function chunksOf(file: Buffer): { type: string; data: Buffer }[] {
  const found: { type: string; data: Buffer }[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    found.push({
      type: file.toString('latin1', at + 4, at + 8),
      data: file.subarray(at + 8, at + 8 + length),
    });
    at += 12 + length;
  }
  return found;
}

/** Undoes the filters of PNG specification 9.2: none, sub, up, average, Paeth. */
function unfilter(packed: Uint8Array, stride: number, height: number, step: number): Uint8Array {
  const out = new Uint8Array(stride * height);
  let above = new Uint8Array(stride);
  for (let y = 0; y < height; y++) {
    const from = y * (stride + 1) + 1;
    const row = out.subarray(y * stride, (y + 1) * stride);
    row.set(packed.subarray(from, from + stride));
    undo(packed[from - 1]!, row, above, step);
    above = row;
  }
  return out;
}

/** A row as it was filtered → as it is. A loop for each filter: pictures have up to 25 MB. */
function undo(filter: number, row: Uint8Array, above: Uint8Array, step: number): void {
  if (filter === 1) for (let i = step; i < row.length; i++) row[i]! += row[i - step]!;
  else if (filter === 2) for (let i = 0; i < row.length; i++) row[i]! += above[i]!;
  else if (filter > 2) {
    for (let i = 0; i < row.length; i++) {
      const left = i < step ? 0 : row[i - step]!;
      row[i]! +=
        filter === 3 ? (left + above[i]!) >> 1 : paeth(left, above[i]!, i < step ? 0 : above[i - step]!);
    }
  }
}

function paeth(left: number, up: number, corner: number): number {
  const [a, b, c] = [Math.abs(up - corner), Math.abs(left - corner), Math.abs(left + up - 2 * corner)];
  if (a <= b && a <= c) return left;
  return b <= c ? up : corner;
}

function withoutAlpha(rgba: Uint8Array): Uint8Array {
  const rgb = new Uint8Array((rgba.length / 4) * 3);
  for (let i = 0, o = 0; i < rgba.length; i += 4) {
    if (rgba[i + 3] !== 255) throw new Error(`Pixel ${i / 4} is not opaque`);
    for (let c = 0; c < 3; c++) rgb[o++] = rgba[i + c]!;
  }
  return rgb;
}
