import { cp, readdir, readFile, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Plugin } from 'vite';
import { buildPane, TARGET } from './pane';
import { root, site } from './paths';
import { buildForUse, QUIET } from './production';

/** The pane's one script that is not its own. In Excel, Microsoft's host serves it. */
const LOADER = '<script src="https://appsforoffice.microsoft.com/lib/1/hosted/office.js"></script>';

/**
 * Builds what the workbench serves: the page with the spreadsheet, and under `pane/` the very files that
 * `npm run build` makes. Only the pages of the pane differ from those, by one line: where Excel loads
 * Office.js, the workbench loads the npm copy of it, unchanged. A `pane` that is built already is taken as it is.
 */
export async function buildSite(folder = site, pane?: string): Promise<void> {
  await buildPage(folder);
  const copy = join(folder, 'pane');
  if (pane) await cp(pane, copy, { recursive: true });
  else await buildPane(copy);
  for (const name of await readdir(copy)) {
    if (!name.endsWith('.html') || HOSTLESS.includes(name)) continue;
    const page = join(copy, name);
    await writeFile(page, forWorkbench(await readFile(page, 'utf8'), name));
  }
  const library = join(root, 'node_modules/@microsoft/office-js/dist');
  for (const file of LIBRARY)
    await cp(join(library, file), join(folder, 'office', file), { recursive: true });
  await buildPageSide(join(folder, 'office'));
}

/** What office.js loads for Excel on the web in English. */
const LIBRARY = ['office.js', 'excel-web-16.00.js', 'en-us', 'telemetry'];

/** The script that runs before office.js: of the old kind, as it must run before it. */
async function buildPageSide(folder: string): Promise<void> {
  const name = 'pageside';
  await buildForUse({
    root: join(root, 'src/workbench/page/host'),
    build: {
      outDir: folder,
      emptyOutDir: false,
      target: TARGET,
      lib: { entry: `${name}.ts`, formats: ['iife'], name, fileName: () => `${name}.js` },
      rolldownOptions: { checks: QUIET },
    },
  });
}

/** The engine asks for dates again and again: it gets the library with an answer that is kept. */
const datesOnce: Plugin = {
  name: 'dates-once',
  enforce: 'pre',
  resolveId: {
    filter: { id: /^numfmt$/ },
    handler: (_, importer) =>
      importer?.includes('@univerjs') ? join(root, 'src/workbench/page/numfmtonce.ts') : undefined,
  },
};

async function buildPage(folder: string): Promise<void> {
  const page = join(root, 'src/workbench/page');
  await buildForUse({
    root: page,
    base: './',
    plugins: [datesOnce],
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: TARGET,
      // The spreadsheet is 6 MB of script and comes from this machine.
      chunkSizeWarningLimit: 16_000,
      rolldownOptions: {
        checks: QUIET,
        input: join(page, 'index.html'),
        // Directives such as "use client" in the spreadsheet's parts mean nothing here.
        onLog: (level, log, report) => {
          if (log.code !== 'MODULE_LEVEL_DIRECTIVE') report(level, log);
        },
      },
    },
  });
}

/** The pane's page as the workbench serves it. Throws if the loader's line is not there exactly once. */
export function forWorkbench(html: string, page: string): string {
  const parts = html.split(LOADER);
  if (parts.length !== 2) throw new Error(`${page} should load Office.js once by the line ${LOADER}`);
  return parts.join(
    '<script src="../office/pageside.js"></script>\n    <script src="../office/office.js"></script>',
  );
}

/** Pages that have nothing to do with the host: they run in any browser, and are served as they are. */
const HOSTLESS: readonly string[] = ['fields.html'];

/** The same while Vite builds the pages. */
export const forWorkbenchPlugin: Plugin = {
  name: 'for-workbench',
  transformIndexHtml: {
    order: 'post',
    handler: (html, { filename }) => {
      const page = basename(filename);
      return HOSTLESS.includes(page) ? html : forWorkbench(html, page);
    },
  },
};
