import { join } from 'node:path';
import preact from '@preact/preset-vite';
import { looks } from './looks';
import { TARGET } from './pane';
import { root } from './paths';
import { buildForUse, QUIET } from './production';

/** The page that shows every component of the pane in every state. For the workbench and for tests; never in `dist`. */
export async function buildComponents(folder: string): Promise<void> {
  const page = join(root, 'test/taskpane/gallery');
  await buildForUse({
    root: page,
    base: './',
    plugins: [preact()],
    css: { modules: looks },
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: TARGET,
      rolldownOptions: { checks: QUIET, input: join(page, 'components.html') },
    },
  });
}
