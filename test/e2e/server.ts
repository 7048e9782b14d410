import type { TestProject } from 'vitest/node';
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

/** Builds the workbench and serves it once for all browser tests. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  await buildSite();
  const server = await serveSite(ANY);
  project.provide('workbench', server.resolvedUrls!.local[0]!);
  return () => server.close();
}
