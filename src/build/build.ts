import { parseArgs } from 'node:util';
import { buildDist } from './dist';
import { hostFolder, LOCAL_HOST } from './manifest';

const HELP = `npm run build -- --host-url https://example.org/light/
  --host-url   folder on an HTTPS host that will serve dist/ (or the variable HOST_URL); default ${LOCAL_HOST}`;

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { 'host-url': { type: 'string' }, help: { type: 'boolean' } },
});
if (values.help) console.log(HELP);
else {
  const host = hostFolder(values['host-url'] ?? process.env.HOST_URL ?? LOCAL_HOST);
  await buildDist(host);
  console.log(`Serve dist/ at ${host} and give Excel dist/manifest.xml`);
}
