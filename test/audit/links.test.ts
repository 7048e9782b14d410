import { describe, expect, it } from 'vitest';
import { check, checkSheet } from '../../src/audit/check/check';
import { figureLinkIn } from '../../src/audit/check/figurelink';
import { calculateAll } from '../../src/audit/formula/calculate';
import { viewOf } from '../../src/audit/view';
import type { BookSheet } from '../../src/sheets/book';
import { realize } from '../../src/sheets/realize';
import { builtSet, setOf } from '../template/built';
import { FULL, SMALL } from '../template/examples';

/** The offers and one run of an invented template, no offer chosen yet. */
const set = builtSet(
  setOf({
    ...SMALL,
    rooms: SMALL.rooms!.slice(0, 1),
    sheets: { offers: { lines: 2 }, runs: { for: 'rooms', rated: 'chosen offer' }, overview: false },
  }),
);
const [, run] = calculateAll(set.map(({ sheet, plan }) => realize(plan, sheet))) as [BookSheet, BookSheet];
const at = set[1]!.plan.names.find(({ name }) => name === 'RatedWhite')!.range;
const withCell = (cell: BookSheet['cells'][string]): BookSheet => ({
  ...run,
  cells: { ...run.cells, [at]: { ...run.cells[at], ...cell } },
});
const about = (sheet: BookSheet) => checkSheet(viewOf(sheet)).filter((finding) => finding.at === at);

describe('a rated figure that is linked to the chosen offer', () => {
  it('is as good as a typed one, waiting or not', () => {
    for (const value of ['no figure yet', 3300]) expect(about(withCell({ value }))).toEqual([]);
  });

  it('may show as the figure does where it comes from, and in no other format', () => {
    const [offers] = calculateAll(set.map(({ sheet, plan }) => realize(plan, sheet))) as [BookSheet];
    const source = run.cells[at]!.formula!.match(/!\$[A-Z]+\$\d+/)![0].replace(/[!$]/g, '');
    const { format } = offers.cells[source]!.style!;
    expect(format).not.toBe('General');
    const shownAs = (shown: string) =>
      withCell({ value: 3300, style: { ...run.cells[at]!.style, format: shown } });
    const inBook = (sheet: BookSheet) =>
      checkSheet(viewOf(sheet), { sheets: [offers, sheet], names: [] }).filter(
        (finding) => finding.at === at && finding.kind === 'format',
      );
    expect(inBook(shownAs(format!))).toEqual([]);
    expect(inBook(shownAs('0.0000'))).toMatchObject([{ kind: 'format' }]);
  });

  it('is a warning where the sheet is gone', () => {
    const lost = run.cells[at]!.formula!.replaceAll("'Offers'!", '#REF!');
    expect(about(withCell({ value: 'sheet removed', formula: lost }))).toMatchObject([
      { severity: 'warning', message: expect.stringContaining('linked to a sheet that is gone') },
    ]);
  });

  it('is no link of ours once something is done to the figure, or another formula stands there', () => {
    const formula = run.cells[at]!.formula!;
    for (const [other, value] of [
      [formula.replace("=1,'Offers'!$H$6", "=1,2*'Offers'!$H$6"), 3300],
      ["='Offers'!$H$6", 3300],
      ['=3000+1', 3001],
    ] as const) {
      expect(other).not.toBe(formula);
      expect(about(withCell({ value, formula: other }))).toMatchObject([
        { severity: 'warning', message: `${at} is for a typed value and holds a formula.` },
      ]);
    }
  });

  it('is known as programs spell it', () => {
    const link = (ref: string) =>
      `=IF(ISERROR(ROWS(${ref})),"sheet removed",IF(COUNT(${ref})=1,${ref},"no figure yet"))`;
    // Excel drops quotes that a name does not need.
    for (const ref of ["'Bids, opened'!$H$6", 'Offers!$H$6', "'Anna''s'!$H$6", '#REF!', '#REF!$H$6'])
      expect(figureLinkIn(viewOf(run), link(ref))).toEqual({ from: ref });
    expect(figureLinkIn(viewOf(run), link('Offers!$H$6').replace('$H$6', '$H$7'))).toBeUndefined();
  });
});

describe('figures that the sheets of a template make of others', () => {
  const whole = builtSet(
    setOf(
      { ...FULL, rooms: SMALL.rooms!, sheets: { ...FULL.sheets, ageing: 'each unit' } },
      {
        serials: Array.from({ length: 30 }, (_, i) => `BIB-${i + 1}`),
        lot: 'Delivery 1 (invented)',
        seed: '4 2',
        drawnBy: 'A. Person',
      },
    ),
  );
  const sheets = calculateAll(whole.map(({ sheet, plan }) => realize(plan, sheet)));

  it('are known as built, waiting or not: nothing but notes in a set that nobody has touched', async () => {
    const { findings } = await check({ sheets, names: [] });
    expect(findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(findings.filter(({ kind }) => kind === 'formula')).toEqual([]);
    // Asked figures are rounded up to a step of 10 lm; a limit is the least part, 0.85, of what was offered.
    const formulas = sheets.flatMap(({ cells }) =>
      Object.values(cells).flatMap(({ formula }) => formula ?? []),
    );
    expect(formulas.some((formula) => /ROUNDUP\('Need'!\$[A-Z]+\$\d+\/10/.test(formula))).toBe(true);
    expect(formulas.some((formula) => /0\.\d+\*'Offers'!/.test(formula))).toBe(true);
  });

  it('are a warning once another part is taken', async () => {
    const offers = sheets.find(({ name }) => name.startsWith('Offers'))!;
    const asked = viewOf(offers).places.get('askedwhite')!.address;
    const formula = offers.cells[asked]!.formula!;
    const other = formula.replace('/10*', '/100*');
    expect(other).not.toBe(formula);
    const cells = { ...offers.cells, [asked]: { ...offers.cells[asked]!, formula: other } };
    const altered = sheets.map((sheet) => (sheet === offers ? { ...offers, cells } : sheet));
    const { findings } = await check({ sheets: altered, names: [] }, { sheets: [offers.name] });
    expect(findings.filter(({ at, severity }) => at === asked && severity === 'warning')).toHaveLength(1);
  });
});
