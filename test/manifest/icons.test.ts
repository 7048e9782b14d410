import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { addresses, all, manifestText, parseManifest } from './manifest';

const manifest = parseManifest(manifestText);

/** Width and height from a PNG's header (PNG specification, 11.2.2: IHDR at byte 16, big-endian). */
function pixels(file: string): [number, number] {
  const bytes = readFileSync(file);
  expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}
function fileOf(address: string): string {
  return join('taskpane', new URL(address).pathname);
}

test.each(
  all(manifest, 'Image')
    .filter((image) => image.hasAttribute('size'))
    .map((image) => [Number(image.getAttribute('size')), image.getAttribute('resid')!]),
)('the ribbon icon for %i pixels has that size', (size, id) => {
  const resource = all(manifest, 'Image').find((image) => image.getAttribute('id') === id)!;
  expect(pixels(fileOf(resource.getAttribute('DefaultValue')!))).toEqual([size, size]);
});

test('the icons of the list of add-ins are 32 and 64 pixels (Office Add-ins documentation, "IconUrl element")', () => {
  const sizeOf = (name: string) => pixels(fileOf(all(manifest, name)[0]!.getAttribute('DefaultValue')!));
  expect(sizeOf('IconUrl')).toEqual([32, 32]);
  expect(sizeOf('HighResolutionIconUrl')).toEqual([64, 64]);
});

test('every icon address has its file', () => {
  const icons = addresses(manifest).filter((address) => address.endsWith('.png'));
  expect(icons.length).toBeGreaterThanOrEqual(5);
  for (const address of icons) expect(() => readFileSync(fileOf(address))).not.toThrow();
});
