/** The check sum that zip files keep of each part (CRC-32, ISO 3309; polynomial 0xEDB88320 reflected). */
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/** CRC-32 of bytes, as an unsigned number. */
export function crc32(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) sum = TABLE[(sum ^ byte) & 0xff]! ^ (sum >>> 8);
  return ~sum >>> 0;
}
