import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { billOfMaterials } from '../../src/build/bom';
import { headers, headersText } from '../../src/build/headers';
import { root } from '../../src/build/paths';
import { serveSite } from '../../src/build/serve';
import { built } from '../tools/built';

test('what a host should send is written down with reasons, and is what our own servers send', async () => {
  const { pane } = await built();
  const server = await serveSite(0, { folder: pane, framedBy: ['https://127.0.0.1:1'] });
  try {
    const came = await fetch(`${server.resolvedUrls!.local[0]}taskpane.html`);
    expect(came.status).toBe(200);
    for (const { name, value, why } of headers(['https://127.0.0.1:1'])) {
      expect(why).toMatch(/\.$/);
      // One that a browser keeps for a year, for every port of this machine.
      if (name === 'Strict-Transport-Security') expect(came.headers.has(name)).toBe(false);
      else expect(came.headers.get(name), name).toBe(value);
    }
  } finally {
    await server.close();
  }
  for (const { name, value } of headers()) expect(headersText()).toContain(`\n${name}: ${value}\n`);
}, 300_000);

/* CycloneDX 1.5 (ECMA-424): `components` with name, version and package URL. */
test('the bill of materials names every package that the add-in is made of, at its pinned version', async () => {
  const bill = JSON.parse(billOfMaterials()) as {
    bomFormat: string;
    metadata: { component: { name: string } };
    components: { name: string; version: string; purl: string }[];
  };
  const own = JSON.parse(await readFile(join(root, 'package.json'), 'utf8')) as {
    name: string;
    dependencies: Record<string, string>;
  };
  expect([bill.bomFormat, bill.metadata.component.name]).toEqual(['CycloneDX', own.name]);
  for (const [name, version] of Object.entries(own.dependencies))
    expect(
      bill.components.some((one) => one.name === name && one.version === version),
      name,
    ).toBe(true);
  expect(bill.components.some(({ name }) => name === 'vitest')).toBe(false);
});

test('nothing that is installed runs a script of its own', async () => {
  expect(await readFile(join(root, '.npmrc'), 'utf8')).toContain('ignore-scripts=true');
});
