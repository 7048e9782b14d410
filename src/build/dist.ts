import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { billOfMaterials } from './bom';
import { headersText } from './headers';
import { manifestFor } from './manifest';
import { buildPane } from './pane';
import { dist, root, taskpane, version } from './paths';
import { firstPaint, LIMIT } from './size';

/** Makes `dist/`, which a host at this address serves to Excel, and says what is in it. Throws if the pane is too large. */
export async function buildDist(host: string): Promise<void> {
  await buildPane(dist);
  await cp(join(taskpane, 'icons'), join(dist, 'icons'), { recursive: true });

  const target = join(dist, 'manifest.xml');
  await writeFile(target, manifestFor(await readFile(join(root, 'manifest.xml'), 'utf8'), host, version));
  const manifest = await OfficeAddinManifest.readManifestFile(target);
  console.log(`dist/manifest.xml  ${manifest.displayName} ${manifest.version}, id ${manifest.id}`);
  console.log(`  pane   ${manifest.defaultSettings?.sourceLocation}`);
  console.log(`  icon   ${manifest.iconUrl}`);
  console.log(`  rights ${manifest.permissions}`);

  await writeFile(join(dist, 'headers.txt'), headersText());
  await writeFile(join(dist, 'bom.json'), billOfMaterials());
  console.log('  dist/headers.txt says what a host should send, dist/bom.json what the add-in is made of');

  const { total, files } = await firstPaint(join(dist, 'taskpane.html'));
  for (const { file, bytes } of files) console.log(`  ${(bytes / 1000).toFixed(1).padStart(6)} kB  ${file}`);
  const sum = `${(total / 1000).toFixed(1)} kB gzipped before the first paint, limit ${LIMIT / 1000} kB`;
  if (total > LIMIT) throw new Error(`The pane has ${sum}`);
  console.log(`  ${sum}`);
}
