import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { describe, expect, test } from 'vitest';
import { hostFolder, manifestFor } from '../../src/build/manifest';
import { addresses, all, manifestText, parseManifest } from './manifest';

async function read(xml: string) {
  const folder = await mkdtemp(join(tmpdir(), 'manifest-'));
  try {
    const file = join(folder, 'manifest.xml');
    await writeFile(file, xml);
    return await OfficeAddinManifest.readManifestFile(file);
  } finally {
    await rm(folder, { recursive: true });
  }
}

test('Office’s own library reads the manifest', async () => {
  const info = await read(manifestText);
  expect(info).toMatchObject({
    officeAppType: 'TaskPaneApp',
    hosts: ['Workbook'],
    permissions: 'ReadWriteDocument',
    displayName: 'Light Output Workbook',
  });
  expect(info.id).toMatch(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
});

describe('for another host', () => {
  const xml = manifestFor(manifestText, 'https://example.org/light', '1.2.3');
  const manifest = parseManifest(xml);

  test('every address is in the folder of that host', () => {
    expect(
      addresses(manifest).filter((address) => !address.startsWith('https://example.org/light/')),
    ).toEqual([]);
    expect(xml).not.toContain('localhost');
    expect(all(manifest, 'AppDomain').map((domain) => domain.textContent)).toEqual(['https://example.org']);
  });
  test('the release is the version, and part of the functions’ address, which Excel keeps for a day', async () => {
    expect((await read(xml)).version).toBe('1.2.3.0');
    expect(addresses(manifest)).toContain('https://example.org/light/functions.json?v=1.2.3');
  });
  test('the identity stays', async () => {
    expect((await read(xml)).id).toBe((await read(manifestText)).id);
  });
});

describe('addresses of hosts', () => {
  test.each([
    ['https://example.org', 'https://example.org/'],
    ['https://example.org/light', 'https://example.org/light/'],
    ['https://example.org:8443/a/b/', 'https://example.org:8443/a/b/'],
  ])('%s', (given, folder) => {
    expect(hostFolder(given)).toBe(folder);
  });
  test.each([
    ['http://example.org/', 'https only'],
    ['example.org', 'not an address'],
    ['https://example.org/?a=1', 'plain folder'],
    ['https://me@example.org/', 'plain folder'],
  ])('%s is refused', (given, reason) => {
    expect(() => hostFolder(given)).toThrow(reason);
  });
});
