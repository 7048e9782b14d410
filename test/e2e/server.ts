import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { site } from '../../src/build/paths';
import { serveSite } from '../../src/build/serve';
import { buildSite } from '../../src/build/site';

/** Any free port. */
const ANY = 0;

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the workbench is served, `http://127.0.0.1:…/`. */
    workbench: string;
  }
}

/**
 * Builds the workbench and serves it once for all browser tests, from a folder of its own: another run of the
 * tests, or somebody's `npm start`, must not change it under them.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  await mkdir(dirname(site), { recursive: true });
  const folder = await mkdtemp(join(dirname(site), 'test-'));
  await buildSite(folder);
  const server = await serveSite(ANY, folder);
  project.provide('workbench', server.resolvedUrls!.local[0]!);
  return async () => {
    await server.close();
    await rm(folder, { recursive: true });
  };
}
