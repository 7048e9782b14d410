import { describe, expect, it } from 'vitest';
import { resultsOf, type SheetResult } from '../../src/audit/results';
import { viewOf } from '../../src/audit/view';
import { addressOf, rectOf, refersTo } from '../../src/sheets/address';
import type { Book, BookSheet, DefinedName } from '../../src/sheets/book';
import { IDENTITY } from '../../src/sheets/plan';
import { EXAMPLES } from './examples';
import { measured } from './sheets';

/*
 * An earlier layout, made by hand from today's: everything stands some rows further down and a column further to the
 * right, and the version is one less. What is expected is what the sheet said before it was moved. Layouts that really
 * were built are in test/frozen.
 */
const [DOWN, RIGHT] = [3, 1];

function moved(address: string): string {
  const { row, column, ...size } = rectOf(address);
  return addressOf({ ...size, row: row + DOWN, column: column + RIGHT });
}

/** All names that a sheet had when what stands beside others had one as well. */
function namesOf(sheet: BookSheet): readonly DefinedName[] {
  const nameless = [...viewOf(sheet).places.values()].filter((place) => place.isNameless);
  return [
    ...sheet.names,
    ...nameless.map(({ name, address }) => ({ name, refersTo: refersTo(sheet.name, address) })),
  ];
}

function older(sheet: BookSheet): BookSheet {
  return {
    ...sheet,
    cells: Object.fromEntries(Object.entries(sheet.cells).map(([at, cell]) => [moved(at), cell])),
    names: namesOf(sheet).map((each) => {
      const [, before, address] = /^(=.*!)(\$?[A-Z]+\$?\d+(?::.*)?)$/.exec(each.refersTo) ?? [];
      if (address) return { ...each, refersTo: `${before}${moved(address.replace(/\$/g, ''))}` };
      if (each.name !== IDENTITY) return each;
      return { ...each, refersTo: each.refersTo.replace(/;(\d+);/, (_, v) => `;${Number(v) - 1};`) };
    }),
  };
}

const BOOKS: Readonly<Record<string, () => Book>> = { run: () => measured(6), ...EXAMPLES };

/** What today's plan knows only by its place, such as the heads of a table, is not found on an older sheet. */
const HAS_NO_NAME = /^[A-Z]{1,2}\d+$/;

describe('results of an earlier layout', () => {
  it.each(Object.entries(BOOKS))('are found by name: %s', (_, make) => {
    const book = make();
    const sheet = book.sheets.at(-1)!;
    const today = resultsOf(viewOf(sheet), book);
    const old = older(sheet);
    const before = { ...book, sheets: [...book.sheets.slice(0, -1), old] };
    const found = resultsOf(viewOf(old), before);
    if (!today.known || !found.known) throw new Error('both are known');
    const expected = today.results.filter(({ name }) => !HAS_NO_NAME.test(name));
    expect(expected.length).toBeGreaterThan(3);
    const list = (all: readonly SheetResult[]) => all.map(({ name, unit }) => `${name} ${unit}`);
    expect(list(found.results)).toEqual(list(expected));
    found.results.forEach(({ name, value, cell, by }, i) => {
      const then = expected[i]!;
      // Where only the plain formula bears a name, it stands for the function: the same but for rounding.
      if (by === then.by) expect([value, cell], name).toEqual([then.value, moved(then.cell)]);
      else if (typeof value === 'number') expect(value, name).toBeCloseTo(then.value as number, 8);
      else expect(value, name).toBe(then.value);
    });
    // The heads of the table of what would be are numbers without a name.
    const labels = (all: readonly SheetResult[]) =>
      all.filter(({ name }) => !name.startsWith('WhatIf[')).map(({ label }) => label);
    expect(labels(found.results)).toEqual(labels(expected));
  });

  it('are not looked for on a sheet of a newer program', () => {
    const book = EXAMPLES.need!();
    const sheet = book.sheets.at(-1)!;
    const names = sheet.names.map((each) =>
      each.name === IDENTITY ? { ...each, refersTo: each.refersTo.replace(/;\d+;/, ';99;') } : each,
    );
    expect(resultsOf(viewOf({ ...sheet, names }), book)).toMatchObject({
      known: false,
      why: expect.stringContaining('newer than this program'),
    });
  });
});
