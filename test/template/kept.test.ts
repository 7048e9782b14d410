import { describe, expect, it } from 'vitest';
import { type Book, type DefinedName, EMPTY_SHEET } from '../../src/sheets/book';
import { forgetTemplate, keepTemplate, keptTemplates } from '../../src/template/kept';
import { readXlsx } from '../../src/xlsx';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { convert } from '../tools/libreoffice';
import { templateOf } from './built';
import { FULL, SMALL } from './examples';

/** Quotes, marks of a formula, letters outside the first plane, more than one name holds. */
const LONG = templateOf({
  ...FULL,
  title: 'A "quoted" title & ="x" 🔆 (invented)',
  rooms: Array.from({ length: 100 }, (_, i) => ({
    room: `"Room" ${i + 1} '=1+1' 🔆🔆🔆 é`,
    width: 2 + i / 1000,
    height: 1.25,
    ambient: 50,
  })),
});
const SHORT = templateOf(SMALL);

const kept = (...templates: readonly (readonly [string, typeof SHORT])[]): readonly DefinedName[] =>
  templates.flatMap(([id, template]) => keepTemplate(id, template, []).set);
const sheet = (names: readonly DefinedName[]): Book => ({
  sheets: [{ ...EMPTY_SHEET, name: 'Sheet1', cells: { A1: { value: 'x' } } }],
  names,
});
const titles = (names: readonly DefinedName[]) =>
  keptTemplates(names).map(({ id, read }) => [id, read.ok ? read.template.title : read.problems]);

describe('templates kept in a workbook', () => {
  it('keep within what Excel takes of a name: 8192 characters a formula, 255 a text in it', () => {
    const names = kept(['long1', LONG]);
    expect(names.length).toBeGreaterThan(2);
    for (const { refersTo, hidden } of names) {
      expect(hidden).toBe(true);
      expect(refersTo.length).toBeLessThanOrEqual(8192);
      for (const [piece] of refersTo.matchAll(/"(?:[^"]|"")*"/g))
        expect(piece.length).toBeLessThanOrEqual(257);
      // No half of a pair at either end: it could not be written to a file.
      expect(refersTo).not.toMatch(/\p{Cs}/u);
    }
    expect(keptTemplates(names)).toEqual([{ id: 'long1', read: { ok: true, template: LONG } }]);
  });

  it('are replaced without leaving parts behind, and forgotten', () => {
    const long = kept(['one', LONG]);
    const { remove, set } = keepTemplate('one', SHORT, long);
    const names = [
      ...long.filter(({ name }) => !remove.includes(name) && !set.some((each) => each.name === name)),
      ...set,
    ];
    expect(titles(names)).toEqual([['one', SHORT.title]]);
    expect(names).toHaveLength(1);
    expect(forgetTemplate('one', long)).toEqual(long.map(({ name }) => name));
  });

  it('are listed by title; a damaged one says so and stands last', () => {
    const names = [
      ...kept(['bbb', LONG], ['aaa', SHORT]),
      { name: 'LightTemplate_ccc', refersTo: '=Sheet1!$A$1', hidden: true },
      { name: 'LightTemplate_ddd', refersTo: '="{""format"":""light-template""}"', hidden: true },
    ];
    expect(titles(names)).toEqual([
      ['bbb', LONG.title],
      ['aaa', SHORT.title],
      ['ccc', ['What the workbook keeps of this template is damaged.']],
      [
        'ddd',
        [
          expect.stringMatching(/^version: it is missing/),
          expect.stringMatching(/^title/),
          expect.stringMatching(/^sheets/),
        ],
      ],
    ]);
  });

  it('survive a file, LibreOffice and the file it writes', async () => {
    const names = kept(['aaa', SHORT], ['bbb', LONG]);
    const bytes = await writeXlsx(sheet(names), { cachedValues: false });
    expect(keptTemplates((await readXlsx(bytes)).names)).toEqual(keptTemplates(names));
    const [saved] = await convert([bytes], 'xlsx');
    expect(keptTemplates((await readXlsx(saved!)).names)).toEqual(keptTemplates(names));
  });

  it('survive the embedded engine and its saved file', async () => {
    const { host } = await createPaneHost();
    const names = kept(['aaa', SHORT], ['bbb', LONG]);
    await host.editNames([{ remove: [], set: names }]);
    const book = await host.book({ sheets: [] });
    expect(keptTemplates(book.names)).toEqual(keptTemplates(names));
    expect(book.names.every(({ hidden }) => hidden)).toBe(true);
  });
});
