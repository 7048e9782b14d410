import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { forWorkbench } from '../../src/build/site';
import { firstPaint } from '../../src/build/size';
import { FUNCTIONS } from '../../src/functions/table';
import { built } from '../tools/built';

/** The pane as Excel gets it, and the workbench's copy of it. */
let folder: string;
let copy: string;
let html: string;
beforeAll(async () => {
  const { pane, site } = await built();
  [folder, copy] = [pane, join(site, 'pane')];
  html = await readFile(join(folder, 'taskpane.html'), 'utf8');
}, 300_000);

/** The scripts that a built one imports before it runs. */
async function importsOf(path: string): Promise<string[]> {
  const code = await readFile(path, 'utf8');
  return [...code.matchAll(/(?:^|;)import(?:[^"'`;()]*from)?["']\.\/([^"']+)["']/gm)].map(
    (found) => found[1]!,
  );
}

describe('the built pane', () => {
  test('loads less than 60 kB gzipped of its own before the first paint, whatever it imports counted', async () => {
    const { total, files } = await firstPaint(join(folder, 'taskpane.html'));
    expect(total).toBeLessThan(60_000);
    // The page lists what its scripts import at once; a script that it left out would load uncounted.
    const counted = files.map(({ file }) => basename(file));
    const scripts = counted.filter((file) => file.endsWith('.js'));
    expect(scripts.length).toBeGreaterThan(0);
    for (const { file } of files.filter((each) => each.file.endsWith('.js')))
      for (const imported of await importsOf(join(folder, file)))
        expect(counted, `${file} imports ${imported}`).toContain(imported);
  });

  test('loads Office.js from Microsoft’s host and everything else, which is there, from its own folder', async () => {
    const loaded = [...html.matchAll(/<(?:script|link)[^>]*(?:src|href)="([^"]+)"/g)].map(
      (found) => found[1]!,
    );
    expect(loaded.filter((address) => !address.startsWith('./'))).toEqual([
      'https://appsforoffice.microsoft.com/lib/1/hosted/office.js',
    ]);
    expect(loaded.length).toBeGreaterThanOrEqual(3);
    for (const address of loaded.filter((each) => each.startsWith('./')))
      expect((await readFile(join(folder, address))).length, address).toBeGreaterThan(0);
  });

  test('has of the helper library only its storage: no sign-in addresses, no banner', async () => {
    const scripts = (await readdir(join(folder, 'assets'))).filter((name) => name.endsWith('.js'));
    const codes = await Promise.all(scripts.map((name) => readFile(join(folder, 'assets', name), 'utf8')));
    expect(codes.filter((code) => /InMemoryStorage/.test(code))).toHaveLength(1);
    for (const code of codes)
      expect(code).not.toMatch(/login\.microsoftonline|accounts\.google|facebook|dropbox|ms-MessageBar/);
  });

  test('has a content policy without inline scripts or styles, and keeps to it', () => {
    const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)?.[1];
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("object-src 'none'");
    expect(policy).not.toContain('unsafe');
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=/);
  });

  test('carries every custom function, by the ids of functions.json', async () => {
    const list = JSON.parse(await readFile(join(folder, 'functions.json'), 'utf8')) as {
      functions: { id: string }[];
    };
    expect(list.functions.map(({ id }) => id)).toEqual(FUNCTIONS.map(({ id }) => id));
    const scripts = (await readdir(join(folder, 'assets'))).filter((name) => name.endsWith('.js'));
    const code = (
      await Promise.all(scripts.map((name) => readFile(join(folder, 'assets', name), 'utf8')))
    ).join('');
    expect(code).toContain('CustomFunctions.associate');
  });
});

describe('the workbench’s copy of the pane', () => {
  test('has the very same scripts and styles', async () => {
    const files = await readdir(join(folder, 'assets'));
    expect(await readdir(join(copy, 'assets'))).toEqual(files);
    for (const file of files) {
      const [here, there] = await Promise.all([folder, copy].map((at) => readFile(join(at, 'assets', file))));
      expect(here!.equals(there!)).toBe(true);
    }
    expect(await readFile(join(copy, 'taskpane.html'), 'utf8')).toBe(forWorkbench(html, 'taskpane.html'));
  });
  test('differs from Excel’s by the one line that loads Office.js', () => {
    const served = forWorkbench(html, 'taskpane.html').split('\n');
    const excel = html.split('\n');
    expect(excel.filter((line) => !served.includes(line))).toEqual([
      '    <script src="https://appsforoffice.microsoft.com/lib/1/hosted/office.js"></script>',
    ]);
    expect(served.filter((line) => !excel.includes(line))).toHaveLength(2);
  });
  test('cannot be made from a page that does not load Office.js', () => {
    expect(() => forWorkbench('<html></html>', 'other.html')).toThrow(
      'other.html should load Office.js once',
    );
  });
});

describe('the size before the first paint', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'size-'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  test('counts scripts, preloads and styles, and no pictures', async () => {
    const page = join(folder, 'size.html');
    await writeFile(join(folder, 'a.js'), 'x'.repeat(1000));
    await writeFile(join(folder, 'b.css'), 'y');
    await writeFile(
      page,
      '<link rel="icon" href="./a.png"><script src="./a.js"></script><link rel="stylesheet" href="./b.css">',
    );
    const { files, total } = await firstPaint(page);
    expect(files.map(({ file }) => file)).toEqual(['./a.js', './b.css']);
    expect(total).toBe(files[0]!.bytes + files[1]!.bytes);
  });
  test('is not nothing', async () => {
    const page = join(folder, 'empty.html');
    await writeFile(page, '<p></p>');
    await expect(firstPaint(page)).rejects.toThrow('loads no script of its own');
  });
});
