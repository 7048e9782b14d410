import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { buildPane } from '../../src/build/pane';
import { root, site } from '../../src/build/paths';
import { buildSite } from '../../src/build/site';

/** What is built: the pane as a host serves it to Excel, and what the workbench serves. */
export interface Built {
  readonly pane: string;
  readonly site: string;
}

/** What goes into a build, from the project's folder. */
const SOURCES = ['src', 'taskpane', 'package.json', 'package-lock.json'];
/** A build that has taken so long was broken off, in ms. */
const GIVEN_UP = 300_000;
/** Builds kept beside the newest. */
const KEPT = 2;

/**
 * The pane and the workbench, built once for all tests that look at them and kept until a source changes. Whoever
 * comes while it is being built waits for it.
 */
export async function built(): Promise<Built> {
  const home = join(dirname(site), 'built');
  await mkdir(home, { recursive: true });
  const folder = join(home, await fingerprint());
  const lock = `${folder}.lock`;
  while (!(await exists(folder))) {
    if (await claim(lock)) {
      try {
        if (!(await exists(folder))) await build(home, folder);
      } finally {
        await rm(lock, { recursive: true, force: true });
      }
    } else await pause(200);
  }
  return { pane: join(folder, 'pane'), site: join(folder, 'site') };
}

async function build(home: string, folder: string): Promise<void> {
  const names = await readdir(home);
  const ready = names.filter((name) => /^[0-9a-f]+$/.test(name));
  const ages = await Promise.all(
    ready.map(async (name) => ({ name, age: (await stat(join(home, name))).mtimeMs })),
  );
  for (const { name } of ages.sort((a, b) => b.age - a.age).slice(KEPT))
    await rm(join(home, name), { recursive: true, force: true });
  const making = await mkdtemp(join(home, 'making-'));
  await buildPane(join(making, 'pane'));
  await buildSite(join(making, 'site'), join(making, 'pane'));
  await rename(making, folder);
}

/** True if it is ours to build; a lock left behind is taken over. */
async function claim(lock: string): Promise<boolean> {
  try {
    await mkdir(lock);
    return true;
  } catch {
    const age = Date.now() - (await stat(lock).then(({ mtimeMs }) => mtimeMs, Date.now));
    if (age > GIVEN_UP) await rm(lock, { recursive: true, force: true });
    return false;
  }
}

async function fingerprint(): Promise<string> {
  const hash = createHash('sha256');
  for (const source of SOURCES) {
    for (const file of await filesOf(join(root, source))) {
      hash.update(file);
      hash.update(await readFile(file));
    }
  }
  return hash.digest('hex').slice(0, 16);
}

async function filesOf(path: string): Promise<string[]> {
  if ((await stat(path)).isFile()) return [path];
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
