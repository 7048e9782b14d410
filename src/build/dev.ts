import { join } from 'node:path';
import { build } from 'vite';
import { paneConfig } from './pane';
import { site } from './paths';
import { portFromEnvironment, serveSite } from './serve';
import { buildSite, forWorkbench } from './site';

/** The workbench for people who change the pane: it is built again at every change; reload the page to see it. */
await buildSite();
const config = paneConfig(join(site, 'pane'));
await build({
  ...config,
  build: { ...config.build, emptyOutDir: false, watch: {} },
  plugins: [
    ...config.plugins!,
    {
      name: 'for-workbench',
      // The pages are written as the workbench serves them, so that a rebuilt page is never the one for Excel.
      generateBundle(_options, bundle) {
        for (const file of Object.values(bundle)) {
          if (file.type !== 'asset' || !file.fileName.endsWith('.html')) continue;
          file.source = forWorkbench(String(file.source), file.fileName);
        }
      },
      closeBundle: () => console.log('Built the pane; reload the page to see it'),
    },
  ],
});
const server = await serveSite(portFromEnvironment());
console.log(`The workbench is open at ${server.resolvedUrls!.local[0]} (Ctrl+C ends it)`);
