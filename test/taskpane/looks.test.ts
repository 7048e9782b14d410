// @vitest-environment node
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';

/*
 * A class is written in two files, its look in one and its use in another, and neither compiler knows of the other:
 * here they are held together.
 */
const root = join(import.meta.dirname, '../..');

function walk(folder: string, end: RegExp): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => end.test(name))
    .map((name) => join(folder, name))
    .sort();
}

const textOf = (path: string) => readFileSync(join(root, path), 'utf8');
const SHEETS = walk('taskpane', /\.css$/);
const MODULES = SHEETS.filter((path) => path.endsWith('.module.css'));
const PARTS = [...walk('taskpane', /\.tsx?$/), ...walk('test/taskpane/gallery', /\.tsx$/)];

/** Names of classes in the selectors of a sheet. */
function defined(path: string): Set<string> {
  const selectors = textOf(path)
    .replace(/\/\*.*?\*\//gs, '')
    .replace(/\{[^{}]*\}/g, '{}');
  return new Set([...selectors.matchAll(/\.([A-Za-z][\w-]*)/g)].map((found) => found[1]!));
}

/** What each part asks of which sheet: `look.card` after `import look from './look.module.css'`. */
function uses(): { readonly part: string; readonly sheet: string; readonly name: string }[] {
  return PARTS.flatMap((part) => {
    const text = textOf(part);
    const body = text.replace(/^import .*$/gm, '');
    return [...text.matchAll(/^import (\w+) from '([^']+\.module\.css)';/gm)].flatMap(([, local, from]) =>
      [...body.matchAll(new RegExp(`(?<![\\w.])${local}(?:\\.(\\w+)|\\[)`, 'g'))].map(([whole, name]) => ({
        part,
        sheet: join(dirname(part), from!),
        name: name ?? `not a name: ${whole}`,
      })),
    );
  });
}

describe('the looks', () => {
  const asked = uses();

  test('every class that a component asks for is in its sheet', () => {
    expect(asked.length).toBeGreaterThan(0);
    const missing = asked.filter(({ sheet, name }) => !MODULES.includes(sheet) || !defined(sheet).has(name));
    expect(missing).toEqual([]);
  });

  test('every class of a sheet is asked for', () => {
    const unused = MODULES.flatMap((sheet) =>
      [...defined(sheet)]
        .filter((name) => !asked.some((use) => use.sheet === sheet && use.name === name))
        .map((name) => `${sheet}: ${name}`),
    );
    expect(unused).toEqual([]);
  });

  test('no component names a class but by its sheet, and no sheet has a class but a module', () => {
    const parts = PARTS.filter((path) => /\bclass(Name)?=("|\{['`][a-z])/.test(textOf(path)));
    const sheets = SHEETS.filter((path) => !MODULES.includes(path) && defined(path).size > 0);
    expect([...parts, ...sheets]).toEqual([]);
  });

  test('no two sheets have one name, which is the first half of a class in the built page', () => {
    const names = MODULES.map((path) => basename(path));
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });
});

test('no two files of a folder differ by a capital alone: Mac and Windows would take one for the other', () => {
  const stem = (path: string) => join(dirname(path), basename(path).replace(/\.tsx?$/, ''));
  const stems = new Set(['src', 'taskpane', 'test'].flatMap((folder) => walk(folder, /\.tsx?$/).map(stem)));
  const seen = new Map<string, string>();
  const pairs = [...stems].flatMap((one) => {
    const other = seen.get(one.toLowerCase());
    seen.set(one.toLowerCase(), one);
    return other === undefined ? [] : [`${other} and ${one}`];
  });
  expect(pairs).toEqual([]);
});
