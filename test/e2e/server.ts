import type { TestProject } from 'vitest/node';
import { serveSite } from '../../src/build/serve';
import { built } from '../tools/built';

/** Any free port. */
const ANY = 0;

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the workbench is served, `http://127.0.0.1:…/`. */
    workbench: string;
  }
}

/** Serves the workbench once for all browser tests, from a folder that no other build changes under them. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { site } = await built();
  const server = await serveSite(ANY, site);
  project.provide('workbench', server.resolvedUrls!.local[0]!);
  return () => server.close();
}
