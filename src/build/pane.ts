import { readdirSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import preact from '@preact/preset-vite';
import type { InlineConfig, Plugin } from 'vite';
import { functionsMetadata } from '../functions/metadata';
import { storageOnly } from './helpers';
import { looks } from './looks';
import { taskpane } from './paths';
import { buildForUse, QUIET } from './production';

/** Excel for Mac and iPad shows add-ins in Safari; Windows and the web have a newer Chromium. */
export const TARGET = ['es2022', 'safari16'];

/**
 * Code that the custom functions need and the first paint does not. The form knows the words and the defaults, and
 * the results are written out with their uncertainties.
 */
const LATER =
  /[\\/](?:@stdlib|src[\\/](?:functions|procurement|metrology(?![\\/](?:words|run[\\/]defaults|report|rounding)\.)))[\\/]/;

/** The pane's pages, e.g. `taskpane.html`: every .html of taskpane/, so that a new window needs no change here. */
function pages(): string[] {
  return readdirSync(taskpane)
    .filter((name) => name.endsWith('.html'))
    .sort();
}

/**
 * How Vite builds the pane; relative addresses, so that it can stand in any folder of a host. `plugins` are for
 * the workbench, which changes a line of the pages.
 */
export function paneConfig(outDir: string, plugins: readonly Plugin[] = []): InlineConfig {
  return {
    root: taskpane,
    base: './',
    // Scripts of the old kind, which stay as they are.
    publicDir: join(taskpane, 'public'),
    plugins: [preact(), storageOnly, ...plugins],
    css: { modules: looks },
    worker: { format: 'es' },
    build: {
      outDir,
      emptyOutDir: true,
      target: TARGET,
      rolldownOptions: {
        checks: QUIET,
        input: pages().map((page) => join(taskpane, page)),
        // Left to itself the bundler puts what two later chunks share into the first one.
        output: {
          codeSplitting: {
            includeDependenciesRecursively: false,
            groups: [{ name: 'functions', test: LATER }],
          },
        },
      },
    },
  };
}

/** Builds the pane and the list of custom functions into a folder. */
export async function buildPane(outDir: string, plugins: readonly Plugin[] = []): Promise<void> {
  await buildForUse(paneConfig(outDir, plugins));
  await writeFile(join(outDir, 'functions.json'), `${JSON.stringify(functionsMetadata(), null, 2)}\n`);
}
