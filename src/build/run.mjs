// Runs one of our TypeScript scripts: Node 20 cannot read TypeScript by itself, so Vite bundles it first.
// Usage: node src/build/run.mjs <script> [arguments], e.g. node src/build/run.mjs build --host-url https://example.org/
import { pathToFileURL } from 'node:url';
import { build } from 'vite';

const script = process.argv[2];
if (!/^[a-z]+$/.test(script ?? '')) throw new Error('Say which script of src/build to run, e.g. "build"');
const outDir = `.tsbuild/scripts/${script}`;
await build({
  configFile: false,
  publicDir: false,
  logLevel: 'warn',
  build: { ssr: `src/build/${script}.ts`, outDir, emptyOutDir: true, target: 'node20' },
});
await import(pathToFileURL(`${outDir}/${script}.js`).href);
