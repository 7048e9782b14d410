import { readdirSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import preact from '@preact/preset-vite';
import { build, type InlineConfig } from 'vite';
import { functionsMetadata } from '../functions/metadata';
import { taskpane } from './paths';

/** Excel for Mac and iPad shows add-ins in Safari; Windows and the web have a newer Chromium. */
export const TARGET = ['es2022', 'safari16'];

/** The pane's pages, e.g. `taskpane.html`: every .html of taskpane/, so that a new window needs no change here. */
function pages(): string[] {
  return readdirSync(taskpane)
    .filter((name) => name.endsWith('.html'))
    .sort();
}

/** How Vite builds the pane; relative addresses, so that it can stand in any folder of a host. */
export function paneConfig(outDir: string): InlineConfig {
  return {
    configFile: false,
    root: taskpane,
    base: './',
    publicDir: false,
    logLevel: 'warn',
    plugins: [preact()],
    build: {
      outDir,
      emptyOutDir: true,
      target: TARGET,
      rolldownOptions: { input: pages().map((page) => join(taskpane, page)) },
    },
  };
}

/** Builds the pane and the list of custom functions into a folder; answers the names of its pages. */
export async function buildPane(outDir: string): Promise<readonly string[]> {
  await build(paneConfig(outDir));
  await writeFile(join(outDir, 'functions.json'), `${JSON.stringify(functionsMetadata(), null, 2)}\n`);
  return pages();
}
