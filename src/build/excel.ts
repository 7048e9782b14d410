import { spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { buildDist } from './dist';
import { LOCAL_HOST } from './manifest';
import { dist } from './paths';
import { serveSite } from './serve';

/*
 * Excel takes an add-in from https only, with a certificate that the system trusts. Microsoft's own tool makes one for
 * this machine and asks once whether it may be trusted. It is fetched when needed and not among the packages: it is of
 * use to whoever tries the add-in in Excel and nobody else, and brings a tool that reports its use.
 */
const TOOL = 'office-addin-dev-certs@3.0.0';
/** Where the tool keeps what it made. */
const MADE = join(homedir(), '.office-addin-dev-certs');

const asked = spawnSync('npx', ['--yes', TOOL, 'install'], {
  stdio: 'inherit',
  // On Windows npx is a script.
  shell: process.platform === 'win32',
});
if (asked.status !== 0) {
  throw new Error(
    `No certificate was made (${asked.error?.message ?? `the tool ended with ${asked.status}`}). Serve dist/ from an https host of your own instead: see the README.`,
  );
}
const [key, cert] = await Promise.all(
  ['key', 'crt'].map((end) => readFile(join(MADE, `localhost.${end}`), 'utf8')),
);
await buildDist(LOCAL_HOST);
await serveSite(Number(new URL(LOCAL_HOST).port), {
  folder: dist,
  https: { key: key!, cert: cert! },
  isForExcel: true,
});
console.log(`Excel can load the add-in from ${LOCAL_HOST} now (Ctrl+C ends it).`);
console.log(
  'Give it dist/manifest.xml, as the table in the README says; then open the pane, and More, Spreadsheet program.',
);
