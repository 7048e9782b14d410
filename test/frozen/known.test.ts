import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { isRecord } from '../../src/audit/check/check';
import { markOfRule } from '../../src/audit/older/known';
import { plainCopyOf } from '../../src/audit/plain';
import { isOlder } from '../../src/audit/today';
import { ourSheets } from '../../src/audit/view';
import { readXlsx } from '../../src/xlsx';
import { isLong } from '../tools/amount';
import { frozenOf, GENERATIONS, LARGE } from './record';
import { beginningsOf, placesOf, type Skeleton, skeletonOf } from './skeleton';

const KNOWN = join(import.meta.dirname, '../../src/audit/older/known.json');

/** A list of marks stands as one text; 24 bits are four characters of base64. */
const ONE_MARK = /.{4}/g;
const all = (marks: ReadonlySet<string>) => [...marks].sort().join('');

/** One line a list: thousands of distances would take as many. */
function written(table: Readonly<Record<string, Readonly<Record<string, unknown>>>>): string {
  const layouts = Object.entries(table).map(([layout, lists]) => {
    const lines = Object.entries(lists).map(
      ([name, list]) => `    ${JSON.stringify(name)}: ${JSON.stringify(list)}`,
    );
    return `  ${JSON.stringify(layout)}: {\n${lines.join(',\n')}\n  }`;
  });
  return `{\n${layouts.join(',\n')}\n}`;
}

/*
 * What the check knows of the contents of earlier layouts is what stands in the frozen workbooks, and nothing else.
 * `UPDATE=1` writes it, after files of a further generation were frozen. That there is nothing else in it only all files
 * tell together, in the long run of the suite; each time whatever stands in the smaller ones must be known.
 */
const isWhole = isLong || Boolean(process.env.UPDATE);

it('the formulas, input rules and fixed words of every layout that is frozen are known', async () => {
  const marks = new Map<string, Record<'formulas' | 'rules' | 'words', Set<string>>>();
  const skeletons = new Map<string, Skeleton[]>();
  for (const generation of GENERATIONS) {
    for (const file of generation.files) {
      if (!isWhole && LARGE.includes(`${generation.name}/${file}`)) continue;
      const { file: path } = frozenOf(generation, file);
      const book = await readXlsx(new Uint8Array(readFileSync(join(generation.folder, path))));
      // A plain copy has notes of its own on its sheets.
      if (plainCopyOf(book)) continue;
      for (const view of ourSheets(book).filter((each) => !isRecord(each))) {
        const { kind, version } = view.identity!;
        const layout = `${kind} ${version}`;
        const skeleton = skeletonOf(view);
        if (isWhole && isOlder(view)) skeletons.set(layout, [...(skeletons.get(layout) ?? []), skeleton]);
        const own = marks.get(layout) ?? {
          formulas: new Set(),
          rules: new Set(),
          words: new Set(),
        };
        marks.set(layout, own);
        for (const [at, mark] of skeleton.marks)
          (view.sheet.cells[at]!.formula === undefined ? own.words : own.formulas).add(mark);
        for (const rule of view.sheet.validations) own.rules.add(markOfRule(view, rule));
      }
    }
  }
  const layouts = [...marks].sort(([a], [b]) => (a < b ? -1 : 1));
  const table = Object.fromEntries(
    layouts.map(([layout, { formulas, rules, words }]) => [
      layout,
      {
        formulas: all(formulas),
        rules: all(rules),
        words: all(words),
        ...(skeletons.has(layout)
          ? { places: placesOf(skeletons.get(layout)!), names: beginningsOf(skeletons.get(layout)!) }
          : {}),
      },
    ]),
  );
  if (process.env.UPDATE) writeFileSync(KNOWN, `${written(table)}\n`);
  const known = JSON.parse(readFileSync(KNOWN, 'utf8')) as Record<string, Record<string, string>>;
  if (isWhole) expect(known).toEqual(table);
  for (const [layout, found] of marks)
    for (const [list, some] of Object.entries(found)) {
      const those = new Set(known[layout]![list]!.match(ONE_MARK));
      expect(
        [...some].filter((mark) => !those.has(mark)),
        `${list} of ${layout}`,
      ).toEqual([]);
    }
}, 240_000);
