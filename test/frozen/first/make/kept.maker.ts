/*
 * A record of how the files beside it were made, run once at commit a07024f; see files.maker.ts.
 *
 * Templates as a workbook keeps them, put into `need-plainest` the way the pane puts them into its workbook.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { keepTemplate, keptTemplates } from '../../../../src/template/kept';
import { readTemplate } from '../../../../src/template/read';
import { readXlsx, writeXlsx } from '../../../../src/xlsx';
import { FULL, SMALL } from '../../../template/examples';

const HERE = join(import.meta.dirname, '..');

it('keeps two templates', async () => {
  let book = await readXlsx(new Uint8Array(readFileSync(join(HERE, 'need-plainest.xlsx'))));
  for (const [id, file] of [
    ['small1', SMALL],
    ['full1', FULL],
  ] as const) {
    const read = readTemplate(JSON.stringify(file));
    if (!read.ok) throw new Error(read.problems.join(' '));
    const { set } = keepTemplate(id, read.template, book.names);
    book = { ...book, names: [...book.names, ...set.map((name) => ({ ...name, hidden: true }))] };
  }
  writeFileSync(join(HERE, 'template-kept.xlsx'), await writeXlsx(book));
  const kept = keptTemplates(book.names).map(({ id, read }) => ({ id, read }));
  writeFileSync(join(HERE, 'template-kept.templates.json'), `${JSON.stringify(kept, undefined, 1)}\n`);
  expect(kept.map(({ read }) => read.ok)).toEqual([true, true]);
});
