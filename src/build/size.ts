import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** The pane's own script and styles before it first shows, gzipped, in bytes: the limit and each file. */
export const LIMIT = 60_000;
export interface FirstPaint {
  readonly total: number;
  readonly files: readonly { readonly file: string; readonly bytes: number }[];
}

/**
 * What a page loads by itself: its scripts, what they import at once (Vite lists those as preloads) and its
 * styles. Office.js comes from Microsoft's host and is not ours.
 */
export async function firstPaint(page: string): Promise<FirstPaint> {
  const html = await readFile(page, 'utf8');
  const files = [...html.matchAll(/(?:src|href)="(\.\/[^"]+\.(?:js|css))"/g)].map((found) => found[1]!);
  if (files.length === 0) throw new Error(`${page} loads no script of its own`);
  const sizes = await Promise.all(
    files.map(async (file) => ({ file, bytes: gzipSync(await readFile(join(dirname(page), file))).length })),
  );
  return { total: sizes.reduce((sum, { bytes }) => sum + bytes, 0), files: sizes };
}
