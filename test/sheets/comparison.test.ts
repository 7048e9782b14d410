import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../src/sheets/address';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import type { Plan } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { styleOf } from '../../src/sheets/style';
import { tokens } from '../../src/sheets/tokens';
import { comparedRun } from './comparedruns';
import { rangeNamed } from './named';
import { SETUPS } from './setups';

const full = runPlan(SETUPS['full-fields']!, 'a1');
const tiled = runPlan(SETUPS['tiled-everything']!, 'b1');
const white = runPlan(SETUPS['white-only']!, 'c1');
const three = [
  comparedRun(full, 'Run A'),
  comparedRun(tiled, "Anna's run", 2),
  comparedRun(white, 'Run C', 1, 2),
];

function plan(runs = three, options = DEFAULT_COMPARISON): Plan {
  const outcome = comparisonPlan(runs, options, 'cmp1');
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(' '));
  return outcome.value;
}
const problems = (runs: typeof three) => {
  const outcome = comparisonPlan(runs, DEFAULT_COMPARISON, 'cmp1');
  return outcome.ok ? [] : outcome.problems.map(({ message }) => message);
};
const many = (count: number) => Array.from({ length: count }, (_, i) => comparedRun(full, `Run ${i + 1}`));
const rangeOf = ({ names }: Plan, name: string) => names.find((entry) => entry.name === name)!.range;

/** As on the run sheet: functions that every spreadsheet program has had for ten years. */
const PLAIN = new Set(
  'ABS AND COUNT IF INT ISERROR ISNUMBER LEFT MIN NORMSINV OR SQRT SUM SUMPRODUCT TINV'.split(' '),
);

describe('the comparison sheet', () => {
  it('computes with functions every program has, and one custom function a result', () => {
    const calls = Object.values(plan().cells).flatMap(({ formula = '' }) =>
      tokens(formula).flatMap(({ kind, text }) => (kind === 'call' ? [text] : [])),
    );
    expect(calls.filter((call) => call.startsWith('LIGHT.'))).toEqual(Array(6).fill('LIGHT.DIFFERENCES'));
    for (const call of calls) if (!call.startsWith('LIGHT.')) expect(PLAIN).toContain(call);
  });

  it('keeps Excel’s limits with twelve runs: 8192 characters, names, prompts', () => {
    const { cells, names, validations } = plan(many(12));
    for (const { formula = '' } of Object.values(cells)) expect(formula.length).toBeLessThanOrEqual(8192);
    expect(new Set(names.map(({ name }) => name.toLowerCase())).size).toBe(names.length);
    for (const { prompt, refusal } of validations) {
      expect(prompt.title.length).toBeLessThanOrEqual(32);
      expect(prompt.message.length).toBeLessThanOrEqual(255);
      expect(refusal.message.length).toBeLessThanOrEqual(224);
    }
    expect(cellsOf(rangeOf(plan(many(12)), 'PairNames'))).toHaveLength(66);
  });

  it('refers to cells of its own that hold something, and to the run sheets by quoted names', () => {
    const { cells, names } = plan();
    const known = new Set(names.map(({ name }) => name));
    const sheets = new Set<string>();
    for (const [at, { formula }] of Object.entries(cells)) {
      let isForeign = false;
      for (const { kind, text } of tokens(formula ?? '')) {
        if (text.startsWith("'")) sheets.add(text);
        if (kind === 'cell' && !isForeign)
          expect(cells[text.replace(/\$/g, '')], `${at} ${text}`).toBeDefined();
        if (kind === 'word' && !/^(TRUE|FALSE)$/.test(text)) expect(known, `${at} ${text}`).toContain(text);
        if (text === '!') isForeign = true;
        else if (kind === 'cell') isForeign = false;
      }
    }
    expect([...sheets].sort()).toEqual(["'Anna''s run'", "'Run A'", "'Run C'"]);
  });

  it('lets people into prices, codes, level and what is shared, and asks at each', () => {
    const { cells, validations } = plan();
    const open = Object.entries(cells)
      .filter(([, { role, format }]) => styleOf({ role, format }).locked === false)
      .map(([at]) => at);
    const asked = new Set(validations.flatMap(({ range }) => cellsOf(range)));
    for (const at of open) expect(asked, at).toContain(at);
    for (const name of ['Prices', 'MeterCodes', 'ImageCodes', 'Level'])
      for (const at of cellsOf(rangeOf(plan(), name))) expect(open).toContain(at);
  });
});

describe('what is shared', () => {
  const flags = (sharing = DEFAULT_COMPARISON.sharing) => {
    const { cells, names } = plan(three, { ...DEFAULT_COMPARISON, sharing });
    const at = cellsOf(names.find(({ name }) => name === 'WhiteShared')!.range);
    return cellsOf(rangeNamed(full, 'WhiteComponents')).map((label, i) => [
      full.cells[label]!.value,
      ...[0, 1, 2].map((k) => cells[at[3 * i + k]!]!.value),
    ]);
  };

  it('is the meter’s own gain with one meter, the image with one image, nothing else', () => {
    expect(flags()).toEqual([
      ['Meter, ± of reading', 1, 0, 0],
      ['Linearity, white', 0, 0, 0],
      ['Meter, ± digits', 0, 0, 0],
      ['Display step', 0, 0, 0],
      ['Repeatability, white', 0, 0, 0],
      ['Placing of the meter', 0, 0, 0],
      ['Spectral mismatch, white', 0, 0, 0],
      ['Image size', 0, 1, 0],
      ['Image not square', 0, 1, 0],
      ['Ambient light', 0, 0, 0],
      ['Drift', 0, 0, 0],
      ['Sensor in front of the screen', 0, 0, 0],
      ['Oblique light on the sensor', 0, 0, 0],
      ['Light the room sends back', 0, 0, 0],
      ['Another cause', 0, 0, 0],
    ]);
  });

  it('follows the choices: digits in, and the spectrum for light sources of one kind', () => {
    const chosen = flags({ digits: true, spectral: true });
    expect(chosen[2]).toEqual(['Meter, ± digits', 1, 0, 0]);
    expect(chosen[6]).toEqual(['Spectral mismatch, white', 1, 0, 0]);
  });
});

describe('runs that cannot be compared', () => {
  it.each([
    [many(1), /takes 2 to 12 runs; there are 1/],
    [many(13), /there are 13/],
    [[many(1)[0]!, many(1)[0]!], /“Run 1” was chosen twice/],
    [
      [many(1)[0]!, { ...many(2)[1]!, components: { White: ['Meter'] } }],
      /budgets with different rows.*Build one of them anew/,
    ],
  ])('%#', (runs, words) => expect(problems(runs).join(' ')).toMatch(words));

  it('in colour say so and still compare white', () => {
    const { cells, names } = plan();
    const at = cellsOf(rangeOf(plan(), 'ColourPairDifferences'));
    expect(at.map((cell) => cells[cell]!.value)).toEqual([undefined, 'not measured', 'not measured']);
    expect(names.some(({ name }) => name === 'WhiteDifferenceExpanded')).toBe(true);
    const two = plan([three[0]!, three[2]!]);
    expect(two.names.some(({ name }) => name === 'ColourDifferenceExpanded')).toBe(false);
  });
});
