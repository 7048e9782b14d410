import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  absolute,
  addressOf,
  cellName,
  cellsOf,
  columnIndex,
  columnName,
  quoteSheet,
  rectOf,
  refersTo,
} from '../../src/sheets/address';
import { identityFormula, parseIdentity } from '../../src/sheets/plan';
import { bookOf, freeName, realize } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { contrastRatio } from './contrast';
import { SETUPS } from './setups';

describe('a free sheet name (Excel: 31 characters, none of \\ / ? * [ ] :, no apostrophe at an end, not "History")', () => {
  it.each([
    ['Run', [], 'Run'],
    ['Run', ['Run'], 'Run 2'],
    ['Run', ['run', 'RUN 2'], 'Run 3'],
    ['History', [], 'History 2'],
    ['history', ['History 2'], 'history 3'],
    ['Room 3/4: unit [A]?*\\', [], 'Room 3 4 unit A'],
    ["'quoted'", [], 'quoted'],
    ["Anna's", [], "Anna's"],
    ["end '", [], 'end'],
    [" 'start", [], 'start'],
    ['', [], 'Sheet'],
    ['  ', ['Sheet'], 'Sheet 2'],
    ['[]', [], 'Sheet'],
    ["''''", [], 'Sheet'],
    ['x'.repeat(40), [], 'x'.repeat(31)],
    ['x'.repeat(40), ['x'.repeat(31)], `${'x'.repeat(29)} 2`],
    ['abcdefghijklmnopqrstuvwxyz 1234 more', [], 'abcdefghijklmnopqrstuvwxyz 1234'],
    [`${'x'.repeat(30)}'tail`, [], 'x'.repeat(30)],
    [`${'x'.repeat(30)}😀`, [], 'x'.repeat(30)],
    [`${'x'.repeat(28)}😀y`, [`${'x'.repeat(28)}😀y`], `${'x'.repeat(28)} 2`],
    ['line\nbreak\tand\u0007bell', [], 'line break and bell'],
  ])('%j beside %j is %j', (wanted, taken, name) => expect(freeName(wanted, taken)).toBe(name));

  it('is always one that Excel takes and nobody has', () => {
    const name = fc.string({ unit: 'grapheme', maxLength: 45 });
    fc.assert(
      fc.property(name, fc.array(name, { maxLength: 5 }), (wanted, others) => {
        const taken = [...others.map((other) => freeName(other, [])), freeName(wanted, [])];
        const free = freeName(wanted, taken);
        expect(free.length).toBeGreaterThan(0);
        expect(free.length).toBeLessThanOrEqual(31);
        expect(free).not.toMatch(/[\\/?*[\]:]|^'|'$|^\s|\s$/);
        // Half a surrogate pair cannot be written in UTF-8.
        expect(() => encodeURIComponent(free)).not.toThrow();
        expect(taken.map((other) => other.toLowerCase())).not.toContain(free.toLowerCase());
      }),
    );
  });
});

describe('addresses', () => {
  it.each([
    [0, 'A'],
    [25, 'Z'],
    [26, 'AA'],
    [701, 'ZZ'],
    [702, 'AAA'],
    [16_383, 'XFD'],
  ])('column %d is %s', (index, name) => {
    expect(columnName(index)).toBe(name);
    expect(columnIndex(name)).toBe(index);
  });

  it('go to rectangles and back', () => {
    const cell = fc.tuple(fc.nat(1_048_575), fc.nat(16_383));
    fc.assert(
      fc.property(cell, fc.nat(9), fc.nat(9), ([row, column], down, right) => {
        const address = `${cellName(row, column)}:${cellName(row + down, column + right)}`;
        const rect = { row, column, rows: down + 1, columns: right + 1 };
        expect(rectOf(address)).toEqual(rect);
        expect(rectOf(absolute(address))).toEqual(rect);
        expect(rectOf(addressOf(rect))).toEqual(rect);
        expect(cellsOf(address)).toHaveLength((down + 1) * (right + 1));
      }),
    );
  });

  it.each(['', 'A', '1', 'A0', 'A1:', 'A1:B', 'Sheet1!A1', 'AAAA1', 'a1'])('"%s" is none', (text) =>
    expect(() => rectOf(text)).toThrow('is not a cell or a range'),
  );

  it('quote sheet names and lie absolute', () => {
    expect(quoteSheet("Anna's room")).toBe("'Anna''s room'");
    expect(refersTo('Run 1', 'B2:D4')).toBe("='Run 1'!$B$2:$D$4");
    expect(cellsOf('B1:C2')).toEqual(['B1', 'C1', 'B2', 'C2']);
  });
});

describe('a realised plan', () => {
  const plan = runPlan({ ...SETUPS['full-fields']!, projector: '=1+1', serial: '0042' }, 'abc1');

  it('keeps a projector called =1+1 a text, and a serial number its zeros', () => {
    const sheet = realize(plan, 'Run');
    const at = (name: string) => plan.names.find((entry) => entry.name === name)!.range;
    expect(sheet.cells[at('Projector')]).toMatchObject({ value: '=1+1', style: { format: '@' } });
    expect(sheet.cells[at('Projector')]!.formula).toBeUndefined();
    expect(sheet.cells[at('SerialNumber')]).toMatchObject({ value: '0042', style: { format: '@' } });
  });

  it('is protected, with absolute names of its own sheet and a hidden identity', () => {
    const sheet = realize(plan, "Anna's run");
    expect(sheet.isProtected).toBe(true);
    const [identity, ...names] = sheet.names;
    expect(identity).toEqual({
      name: 'LightSheet',
      refersTo: `="run;${plan.version};abc1"`,
      hidden: true,
      comment: expect.stringMatching(/^Built by version \d/),
    });
    expect(names).toHaveLength(plan.names.length);
    for (const { refersTo: text } of names)
      expect(text).toMatch(/^='Anna''s run'!\$[A-Z]+\$\d+(:\$[A-Z]+\$\d+)?$/);
  });

  it('gives two plans of one title two names', () => {
    const book = bookOf([plan, plan]);
    expect(book.sheets[1]!.name).not.toBe(book.sheets[0]!.name);
    expect(book.active).toBe(book.sheets[0]!.name);
    expect(book.sheets.every(({ name }) => name.length <= 31)).toBe(true);
  });

  it('is JSON all the way down', () => {
    const sheet = realize(plan);
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
  });
});

describe('the identity of a sheet', () => {
  it('goes into a name’s constant and back', () => {
    const identity = { kind: 'run', version: 1, id: 'k3f9a2' } as const;
    expect(parseIdentity(identityFormula(identity))).toEqual(identity);
  });
  it.each(['', '=1', '="other;1;abc"', '="run;x;abc"', '="run;1;"', '="run;1;ABC"', "='Run 1'!$A$1"])(
    '%s is not ours',
    (text) => expect(parseIdentity(text)).toBeUndefined(),
  );
});

it('contrast is measured as WCAG does: black on white is 21, #767676 on white is 4.54', () => {
  expect(contrastRatio('#000000', '#FFFFFF')).toBeCloseTo(21, 9);
  // The well-known lightest grey that passes on white (from memory).
  expect(contrastRatio('#767676', '#FFFFFF')).toBeCloseTo(4.54, 2);
});
