// Runs the command line: Node 20 cannot read TypeScript by itself, so Vite bundles it first, into one file that
// runs anywhere Node does (.tsbuild/light/light.mjs). It is bundled again only when a source is newer.
// Usage: npm run light -- check run.xlsx
import { mkdirSync, readdirSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const bundle = join(root, '.tsbuild', 'light', 'light.mjs');

const sources = [
  join(root, 'package.json'),
  ...readdirSync(join(root, 'src'), { recursive: true })
    .filter((path) => path.endsWith('.ts'))
    .map((path) => join(root, 'src', path)),
];
const newest = Math.max(...sources.map((path) => statSync(path).mtimeMs));
const made = statSync(bundle, { throwIfNoEntry: false })?.mtimeMs ?? 0;
if (made < newest) await make();
await import(pathToFileURL(bundle).href);

async function make() {
  const { build } = await import('vite');
  const { output } = await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    // The SQL engine is code of the machine; it is loaded when it is asked for.
    ssr: { noExternal: true, external: ['@duckdb/node-api'] },
    build: { ssr: join(root, 'src/cli/light.ts'), write: false, target: 'node20' },
  });
  if (output.length !== 1) throw new Error(`One file expected, ${output.length} made`);
  mkdirSync(dirname(bundle), { recursive: true });
  // Put in place whole: another run may be reading.
  const fresh = `${bundle}.${process.pid}`;
  writeFileSync(fresh, output[0].code);
  renameSync(fresh, bundle);
}
