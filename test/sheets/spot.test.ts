import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { cellsOf, rectOf } from '../../src/sheets/address';
import type { Plan, PlanCell } from '../../src/sheets/plan';
import { identityFormula, parseIdentity } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { SPOT_VERSION, type SpotSetup, spotOrder, spotPlan } from '../../src/sheets/spot';
import { styleOf } from '../../src/sheets/style';
import { tokens } from '../../src/sheets/tokens';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';

/* Units, places and readings are invented. */
const UNITS = ['Branch A', 'Branch B', 'Branch C'];
const SETUP: SpotSetup = {
  title: 'three branches (invented)',
  units: UNITS,
  reference: 'first',
  ambient: true,
  place: 'Workshop',
  measuredBy: 'R. Invented',
  date: '2026-11-25',
  meter: { ...defaultRunSetup().meter, name: 'Meter 1 (invented)', digit: 0.1 },
};

/** Types numbers into a plan. */
function filled(plan: Plan, typed: Readonly<Record<string, readonly (number | undefined)[]>>): Plan {
  const cells: Record<string, PlanCell> = { ...plan.cells };
  for (const [name, values] of Object.entries(typed)) {
    cellsOf(plan.names.find((n) => n.name === name)!.range).forEach((at, i) => {
      const value = values[i];
      if (value !== undefined) cells[at] = { ...cells[at]!, value };
    });
  }
  return { ...plan, cells };
}

const READINGS = {
  AmbientReadings: [2],
  WhiteReadings: [202, 182, 22.2],
  WhiteRange: [1, 1, 10],
  RedReadings: [42, 38, 41],
  GreenReadings: [122, 112, 113],
  BlueReadings: [22, 20, 21],
};

/*
 * Worked by hand from the readings: net white 200, 180, 220 lx; net colour sums (42 + 122 + 22 − 3 · 2 =) 180,
 * 164, 169 lx.
 */
const BY_HAND = {
  first: { white: [1, 0.9, 1.1], colour: [1, 164 / 180, 169 / 180], ratio: [0.9, 164 / 180, 169 / 220] },
  best: {
    white: [200 / 220, 180 / 220, 1],
    colour: [1, 164 / 180, 169 / 180],
    ratio: [0.9, 164 / 180, 169 / 220],
  },
};

const columns = { white: 'WhiteRelative', colour: 'ColourRelative', ratio: 'ColourToWhite' } as const;

describe('relative figures', () => {
  it('LibreOffice comes to the figures worked by hand, and leaves out what waits for a reading', async () => {
    const plans = [
      filled(spotPlan(SETUP, 's1'), READINGS),
      filled(spotPlan({ ...SETUP, reference: 'best' }, 's2'), READINGS),
      filled(spotPlan(SETUP, 's3'), { ...READINGS, RedReadings: [42, undefined, 41] }),
      filled(spotPlan(SETUP, 's4'), { ...READINGS, AmbientReadings: [] }),
    ];
    const books = await recalculate(
      await Promise.all(plans.map((plan) => writeXlsx(bookOf([plan]), { cachedValues: false }))),
    );
    const values = (i: number, name: string) =>
      cellsOf(plans[i]!.names.find((n) => n.name === name)!.range).map(
        (at) => books[i]!.sheets[0]!.cells[at]?.value,
      );
    for (const [i, want] of [BY_HAND.first, BY_HAND.best].entries()) {
      for (const [what, name] of Object.entries(columns)) {
        const came = values(i, name);
        want[what as keyof typeof want].forEach((figure, k) => {
          expect(came[k], `${name} ${k}`).toBeCloseTo(figure, 12);
        });
      }
    }
    expect(values(2, 'ColourRelative')[0]).toBeCloseTo(1, 12);
    expect([values(2, 'ColourRelative')[1], values(2, 'ColourToWhite')[1]].map((v) => v || null)).toEqual([
      null,
      null,
    ]);
    expect(values(3, 'WhiteRelative').map((value) => value || null)).toEqual([null, null, null]);
  });

  it('the embedded engine comes to the same, in foot-candles too: the unit cancels', async () => {
    const { host, test } = await createPaneHost();
    const meter = { ...SETUP.meter, unit: 'fc' as const };
    const { sheet } = await host.build(filled(spotPlan({ ...SETUP, meter }, 's1'), READINGS));
    await test.engine.calculation.settled();
    const { values, kind } = await host.read(sheet);
    expect(kind).toBe('spot');
    for (const [what, name] of Object.entries(columns)) {
      values[name]!.values.flat().forEach((value, k) => {
        expect(value as number, `${name} ${k}`).toBeCloseTo(
          BY_HAND.first[what as keyof typeof BY_HAND.first][k]!,
          10,
        );
      });
    }
    // 1 fc is 10.763910 lx (NIST SP 811, appendix B).
    expect(values.WhiteNet!.values[0]![0]).toBeCloseTo(200 * 10.763910416709722, 8);
  });
});

describe('the order of the units', () => {
  it('drawn: as the SHA-256 tickets of another implementation have it', () => {
    const units = Array.from({ length: 12 }, (_, i) => `Unit ${i + 1}`);
    const ticket = (unit: string) => createHash('sha256').update(`dice 4 2 6\n${unit}`, 'utf8').digest('hex');
    const drawn = [...units].sort((a, b) => (ticket(a) < ticket(b) ? -1 : 1));
    const order = spotOrder(units, 'dice 4 2 6');
    expect(order.ok && order.value).toEqual(units.map((unit) => drawn.indexOf(unit) + 1));
    expect(order.ok && [...order.value].sort((a, b) => a - b)).toEqual(units.map((_, i) => i + 1));
  });

  it('is recorded on the sheet with its seed and its rule', () => {
    const plan = spotPlan({ ...SETUP, seed: 'dice 4 2 6' }, 's1');
    const at = plan.names.find(({ name }) => name === 'SpotSeed')!.range;
    expect(plan.cells[at]!.value).toBe('dice 4 2 6');
    const { row } = rectOf(at);
    expect(plan.cells[`G${row + 1}`]!.value).toContain('SHA-256 of the seed');
    const turns = cellsOf(plan.names.find(({ name }) => name === 'SpotTurns')!.range);
    const order = spotOrder(UNITS, 'dice 4 2 6');
    expect(turns.map((cell) => plan.cells[cell]!.value)).toEqual(order.ok && order.value);
  });

  it.each([
    ['one unit', ['A'], /takes 2 to 12 units; there is 1\./],
    ['thirteen', Array.from({ length: 13 }, (_, i) => `U${i}`), /takes 2 to 12 units; there are 13\./],
    ['a unit twice', ['A', 'B', 'A'], /"A" is listed 2 times/],
    ['a unit without a name', ['A', ' '], /row 2 is missing/],
  ])('refuses %s', (_what, units, message) => {
    expect(() => spotPlan({ ...SETUP, units }, 's1')).toThrow(message);
  });
});

describe('the sheet', () => {
  const plan = spotPlan({ ...SETUP, seed: 'dice 4 2 6' }, 'spot1');

  it('says that it does not speak of lumens, and shows none', () => {
    const texts = Object.values(plan.cells).map(({ value }) => String(value ?? ''));
    expect(texts.some((text) => text.includes('nothing here is in lumens'))).toBe(true);
    expect(texts.filter((text) => /\blm\b/.test(text))).toEqual([]);
    expect(texts.some((text) => text.startsWith('Eyes first'))).toBe(true);
  });

  it('is known again by its hidden mark', () => {
    expect(parseIdentity(identityFormula(plan))).toEqual({
      kind: 'spot',
      version: SPOT_VERSION,
      id: 'spot1',
    });
  });

  it('refers to its own names and cells, and calls no custom function', () => {
    const known = new Set(plan.names.map(({ name }) => name));
    for (const [at, { formula }] of Object.entries(plan.cells)) {
      if (!formula) continue;
      expect(formula, at).not.toContain('LIGHT.');
      for (const { kind, text } of tokens(formula)) {
        if (kind === 'word') expect(known, `${at}: ${text}`).toContain(text);
        if (kind === 'cell') expect(plan.cells[text.replace(/\$/g, '')], `${at}: ${text}`).toBeDefined();
      }
    }
  });

  it('lets people into input cells only, and each has its question', () => {
    const asked = new Set(plan.validations.flatMap(({ range }) => cellsOf(range)));
    const covered = new Set(plan.merges.flatMap((range) => cellsOf(range).slice(1)));
    for (const [at, { role, format }] of Object.entries(plan.cells)) {
      const isInput = ['input', 'choice', 'reading', 'factor', 'words'].includes(role);
      expect(styleOf({ role, format }).locked === false, at).toBe(isInput);
      if (isInput && !covered.has(at)) expect(asked, at).toContain(at);
    }
  });
});
