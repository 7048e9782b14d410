import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { isRecord } from '../../src/audit/check/check';
import { broken } from '../../src/audit/formula/normal';
import { markOf, markOfRule, markOfWord } from '../../src/audit/older/known';
import { plainCopyOf } from '../../src/audit/plain';
import { ourSheets } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import { readXlsx } from '../../src/xlsx';
import { frozenOf, GENERATIONS } from './record';

const KNOWN = join(import.meta.dirname, '../../src/audit/older/known.json');

const all = (marks: ReadonlySet<string>) => [...marks].sort().join('');

/*
 * What the check knows of the contents of earlier layouts is what stands in the frozen workbooks, and nothing else.
 * `UPDATE=1` writes it, after files of a further generation were frozen.
 */
it('the formulas, input rules and fixed words of every layout that is frozen are known', async () => {
  const marks = new Map<string, Record<'formulas' | 'rules' | 'words', Set<string>>>();
  for (const generation of GENERATIONS) {
    for (const file of generation.files) {
      const { file: path } = frozenOf(generation, file);
      const book = await readXlsx(new Uint8Array(readFileSync(join(generation.folder, path))));
      // A plain copy has notes of its own on its sheets.
      if (plainCopyOf(book)) continue;
      for (const view of ourSheets(book).filter((each) => !isRecord(each))) {
        const { kind, version } = view.identity!;
        const cells = Object.entries(view.sheet.cells);
        const filled = new Set(cells.flatMap(([, { spill }]) => (spill ? cellsOf(spill) : [])));
        const own = marks.get(`${kind} ${version}`) ?? {
          formulas: new Set(),
          rules: new Set(),
          words: new Set(),
        };
        marks.set(`${kind} ${version}`, own);
        for (const [at, { formula, value, style }] of cells) {
          if (formula !== undefined && !broken(formula))
            own.formulas.add(markOf(formula, at, view.sheet.name));
          const isFixed = formula === undefined && style?.locked !== false && !filled.has(at);
          if (isFixed && typeof value !== 'object' && value !== '') own.words.add(markOfWord(value));
        }
        for (const rule of view.sheet.validations) own.rules.add(markOfRule(view, rule));
      }
    }
  }
  const layouts = [...marks].sort(([a], [b]) => (a < b ? -1 : 1));
  const table = Object.fromEntries(
    layouts.map(([layout, { formulas, rules, words }]) => [
      layout,
      { formulas: all(formulas), rules: all(rules), words: all(words) },
    ]),
  );
  if (process.env.UPDATE) writeFileSync(KNOWN, `${JSON.stringify(table, null, 2)}\n`);
  expect(JSON.parse(readFileSync(KNOWN, 'utf8'))).toEqual(table);
});
