import { join } from 'node:path';
import { paneConfig } from './pane';
import { site } from './paths';
import { buildForUse } from './production';
import { portFromEnvironment, serveSite } from './serve';
import { buildSite, forWorkbenchPlugin } from './site';

/** The workbench for people who change the pane: it is built again at every change; reload the page to see it. */
await buildSite();
const { build, ...config } = paneConfig(join(site, 'pane'), [
  forWorkbenchPlugin,
  { name: 'tell', closeBundle: () => console.log('Built the pane; reload the page to see it') },
]);
await buildForUse({ ...config, build: { ...build, emptyOutDir: false, watch: {} } });
const server = await serveSite(portFromEnvironment());
console.log(`The workbench is open at ${server.resolvedUrls!.local[0]} (Ctrl+C ends it)`);
