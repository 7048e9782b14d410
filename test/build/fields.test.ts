import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { firstPaint } from '../../src/build/size';
import { built } from '../tools/built';

let folder: string;
let html: string;
beforeAll(async () => {
  folder = join((await built()).site, 'pane');
  html = await readFile(join(folder, 'fields.html'), 'utf8');
}, 300_000);

describe('the built page of the test fields', () => {
  test('loads nothing but its own files, not even the host’s library', async () => {
    const loaded = [...html.matchAll(/<(?:script|link)[^>]*(?:src|href)="([^"]+)"/g)].map(
      (found) => found[1]!,
    );
    expect(loaded.length).toBeGreaterThanOrEqual(3);
    expect(loaded.filter((address) => !address.startsWith('./'))).toEqual([]);
    expect(html).not.toContain('office');
    const { total } = await firstPaint(join(folder, 'fields.html'));
    // A field has to stand on the screen at once; the spreadsheet part of the pane is not wanted here.
    expect(total).toBeLessThan(30_000);
  });

  test('has the strictest content policy, and keeps to it', () => {
    const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1];
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toMatch(/unsafe|https?:|data:|blob:|\*/);
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=/);
  });
});
