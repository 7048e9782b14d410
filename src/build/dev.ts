import { join } from 'node:path';
import { buildComponents } from './components';
import { paneConfig } from './pane';
import { site } from './paths';
import { buildForUse } from './production';
import { portFromEnvironment, serveSite } from './serve';
import { buildSite, forWorkbenchPlugin } from './site';

/** The workbench for people who change the pane: it is built again at every change; reload the page to see it. */
await buildSite();
await buildComponents(join(site, 'components'));
const { build, ...config } = paneConfig(join(site, 'pane'), [
  forWorkbenchPlugin,
  { name: 'tell', closeBundle: () => console.log('Built the pane; reload the page to see it') },
]);
await buildForUse({ ...config, build: { ...build, emptyOutDir: false, watch: {} } });
const server = await serveSite(portFromEnvironment());
const [address] = server.resolvedUrls!.local;
console.log(`The workbench is open at ${address} (Ctrl+C ends it)`);
console.log(`Every component in every state: ${address}components/components.html`);
