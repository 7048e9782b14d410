import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { hostFolder, LOCAL_HOST, manifestFor } from './manifest';
import { buildPane } from './pane';
import { dist, root, taskpane, version } from './paths';
import { firstPaint, LIMIT } from './size';

const HELP = `npm run build -- --host-url https://example.org/light/
  --host-url   folder on an HTTPS host that will serve dist/ (or the variable HOST_URL); default ${LOCAL_HOST}`;

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { 'host-url': { type: 'string' }, help: { type: 'boolean' } },
});
if (values.help) console.log(HELP);
else await run(hostFolder(values['host-url'] ?? process.env.HOST_URL ?? LOCAL_HOST));

async function run(host: string): Promise<void> {
  await buildPane(dist);
  await cp(join(taskpane, 'icons'), join(dist, 'icons'), { recursive: true });

  const target = join(dist, 'manifest.xml');
  await writeFile(target, manifestFor(await readFile(join(root, 'manifest.xml'), 'utf8'), host, version));
  const manifest = await OfficeAddinManifest.readManifestFile(target);
  console.log(`dist/manifest.xml  ${manifest.displayName} ${manifest.version}, id ${manifest.id}`);
  console.log(`  pane   ${manifest.defaultSettings?.sourceLocation}`);
  console.log(`  icon   ${manifest.iconUrl}`);
  console.log(`  rights ${manifest.permissions}`);

  const { total, files } = await firstPaint(join(dist, 'taskpane.html'));
  for (const { file, bytes } of files) console.log(`  ${(bytes / 1000).toFixed(1).padStart(6)} kB  ${file}`);
  const sum = `${(total / 1000).toFixed(1)} kB gzipped before the first paint, limit ${LIMIT / 1000} kB`;
  if (total > LIMIT) throw new Error(`The pane has ${sum}`);
  console.log(`  ${sum}`);
  console.log(`Serve dist/ at ${host} and give Excel dist/manifest.xml`);
}
