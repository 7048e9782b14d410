import type { TestProject } from 'vitest/node';
import { serveSite } from '../../src/build/serve';
import { built } from '../tools/built';

/** Any free port. */
const ANY = 0;

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the workbench is served plainly, `http://127.0.0.1:…/`, as by `npm start`. */
    workbench: string;
    /** Where the spreadsheet is served as Excel on the web is, `https://127.0.0.1:…/`. */
    host: string;
    /** Where the add-in is served as by its own host, `https://127.0.0.1:…/`. */
    addin: string;
  }
}

/** Serves the workbench once for all browser tests, from a folder that no other build changes under them. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { site: folder } = await built();
  const plain = await serveSite(ANY, { folder });
  const host = await serveSite(ANY, { folder, https: true });
  const framedBy = [new URL(host.resolvedUrls!.local[0]!).origin];
  const addin = await serveSite(ANY, { folder, https: true, framedBy });
  const servers = { workbench: plain, host, addin };
  for (const [name, server] of Object.entries(servers))
    project.provide(name as keyof typeof servers, server.resolvedUrls!.local[0]!);
  return async () => {
    for (const server of Object.values(servers)) await server.close();
  };
}
