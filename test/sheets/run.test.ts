import { describe, expect, it } from 'vitest';
import { absolute, cellsOf, rectOf } from '../../src/sheets/address';
import { addressesOf } from '../../src/sheets/filled';
import type { Plan } from '../../src/sheets/plan';
import { runPlan, runResults } from '../../src/sheets/run';
import { styleOf } from '../../src/sheets/style';
import { tokens } from '../../src/sheets/tokens';
import { expectGolden } from '../golden';
import { contrastRatio } from './contrast';
import { rangeNamed } from './named';
import { SETUPS } from './setups';
import { showPlan } from './show';

/**
 * Functions that spreadsheet programs have had for well over ten years (OpenDocument 1.2, "small group", and
 * Excel 2007): a hand-over copy lives anywhere.
 */
const PLAIN_FUNCTIONS = new Set(
  'ABS AND AVERAGE COUNT COUNTA COUNTIF IF INDEX INT ISBLANK ISERROR ISNUMBER LEFT LOWER MAX MIN N OR PI ROUND SQRT SUM SUMPRODUCT SUMSQ TDIST TINV IFERROR DEVSQ EXP NORMSDIST NORMSINV FIND TRIM FIXED LOG10 MATCH MID ROW SUBSTITUTE'.split(
    ' ',
  ),
);
/** Excel: at most 8192 characters, 64 levels of nesting ("Excel specifications and limits"). */
const FORMULA_MAX = 8192;
const NESTING_MAX = 64;
const INPUTS = ['input', 'choice', 'reading', 'factor', 'words'];
/** Excel refuses names that could be a cell, in either notation. */
const CELL_LIKE = /^\$?[A-Z]{1,3}\$?[0-9]+$|^R[0-9]*C[0-9]*$|^[RC][0-9]*$/i;

function nesting(formula: string): number {
  let [depth, most] = [0, 0];
  for (const { kind, text } of tokens(formula)) {
    if (kind !== 'other') continue;
    if (text === '(') most = Math.max(most, ++depth);
    if (text === ')') depth--;
  }
  expect(depth, formula).toBe(0);
  return most;
}

const formulasOf = (plan: Plan) =>
  Object.entries(plan.cells).flatMap(([at, { formula, role }]) => (formula ? [{ at, formula, role }] : []));
const callsOf = (formula: string) =>
  tokens(formula).flatMap(({ kind, text }) => (kind === 'call' ? [text] : []));

it('the plainest run stands as it was read and approved (regression)', () => {
  const plan = runPlan(SETUPS['white-only']!, 'test1');
  expectGolden(showPlan(plan), new URL('./cases/white-only.txt', import.meta.url));
});

describe.each(Object.entries(SETUPS))('the run sheet, %s', (_name, setup) => {
  const plan = runPlan(setup, 'test1');
  const formulas = formulasOf(plan);

  it('keeps Excel’s limits of validations', () => {
    for (const { prompt, refusal, rule, range } of plan.validations) {
      // [MS-OI29500] 2.1.613: titles 32, prompt 255, error 224 characters; list source 255.
      expect(prompt.title.length, range).toBeLessThanOrEqual(32);
      expect(refusal.title.length, range).toBeLessThanOrEqual(32);
      expect(prompt.message.length, range).toBeLessThanOrEqual(255);
      expect(refusal.message.length, range).toBeLessThanOrEqual(224);
      for (const text of [prompt.title, prompt.message, refusal.title, refusal.message])
        expect(text.trim(), range).not.toBe('');
      if (rule.type === 'list') {
        expect(rule.choices.join(',').length).toBeLessThanOrEqual(255);
        for (const choice of rule.choices) expect(choice).not.toContain(',');
      }
      if (rule.type === 'formula') {
        expect(rule.formula.length).toBeLessThanOrEqual(255);
        expect(rule.formula).not.toContain('LIGHT.');
      }
    }
  });

  it('keeps Excel’s limits of formulas', () => {
    for (const { formula, at } of formulas) {
      expect(formula.startsWith('='), at).toBe(true);
      expect(formula.length, at).toBeLessThanOrEqual(FORMULA_MAX);
      expect(nesting(formula), at).toBeLessThanOrEqual(NESTING_MAX);
      // A text inside a formula holds at most 255 characters.
      for (const { text } of tokens(formula))
        if (text.startsWith('"')) expect(text.length).toBeLessThanOrEqual(257);
    }
  });

  it('calls tens of custom functions, not one a reading', () => {
    const custom = formulas.flatMap(({ formula }) =>
      callsOf(formula).filter((call) => call.startsWith('LIGHT.')),
    );
    expect(custom.length).toBeGreaterThan(0);
    expect(custom.length).toBeLessThanOrEqual(70);
    for (const { role, formula } of formulas)
      if (formula.includes('LIGHT.')) expect(['called', 'check']).toContain(role);
  });

  it('has names that Excel takes, distinct in any case, on cells of the plan', () => {
    expect(new Set(plan.names.map((entry) => entry.name.toLowerCase())).size).toBe(plan.names.length);
    for (const { name: label, range, comment } of plan.names) {
      expect(label).toMatch(/^[A-Za-z_][A-Za-z0-9_.]{0,254}$/);
      expect(label).not.toMatch(CELL_LIKE);
      expect(comment.length).toBeLessThanOrEqual(255);
      expect(comment.trim()).not.toBe('');
      for (const at of cellsOf(range)) expect(plan.cells[at], `${label} ${at}`).toBeDefined();
    }
  });

  it('refers to its own names and to cells that hold something, never beside the sheet', () => {
    const known = new Set(plan.names.map((entry) => entry.name));
    const rules = plan.validations.flatMap(({ rule, range }) =>
      rule.type === 'formula' ? [{ at: range, formula: rule.formula }] : [],
    );
    for (const { at, formula } of [...formulas, ...rules]) {
      for (const { kind, text } of tokens(formula)) {
        if (kind === 'word' && !/^(TRUE|FALSE)$/.test(text)) expect(known, `${at}: ${text}`).toContain(text);
        if (kind === 'cell') expect(plan.cells[text.replace(/\$/g, '')], `${at}: ${text}`).toBeDefined();
        expect(kind, at).not.toBe('lines');
        expect(text, at).not.toMatch(/[![]|#REF/);
      }
    }
  });

  it('shows every result twice, and whether the two agree', () => {
    const results = runResults(setup);
    expect(results.length).toBeGreaterThan(5);
    const range = (label: string) => rangeNamed(plan, label);
    const agreement = new Set(cellsOf(range('Agreement')));
    for (const result of results) {
      const [custom, twin] = [range(result.name), range(`${result.name}Plain`)];
      expect(plan.cells[custom]).toMatchObject({ role: 'called', format: result.format });
      expect(plan.cells[twin]).toMatchObject({ role: 'twin', format: result.format });
      expect(plan.cells[custom]!.formula).toContain('LIGHT.');
      const check = `G${rectOf(custom).row + 1}`;
      expect(agreement).toContain(check);
      expect(plan.cells[check]!.formula).toContain(custom);
      expect(plan.cells[check]!.formula).toContain(twin);
      expect(plan.notes.find(({ at }) => at === custom)?.text).toContain('Source:');
    }
  });

  it('computes twins, and all but results and remarks, with functions every program has', () => {
    for (const { at, formula, role } of formulas) {
      if (role === 'called' || formula.includes('LIGHT.')) continue;
      for (const call of callsOf(formula)) expect(PLAIN_FUNCTIONS, `${at}: ${call}`).toContain(call);
    }
    for (const { formula, at, role } of formulas)
      if (role === 'twin') expect(formula.includes('LIGHT.'), at).toBe(false);
  });

  it('lets people into input cells only', () => {
    for (const [at, { role, format }] of Object.entries(plan.cells))
      expect(styleOf({ role, format }).locked === false, `${at} ${role}`).toBe(INPUTS.includes(role));
  });

  it('asks a question at every input: each has a validation', () => {
    const asked = new Set(plan.validations.flatMap(({ range }) => cellsOf(range)));
    const covered = new Set(plan.merges.flatMap((range) => cellsOf(range).slice(1)));
    for (const [at, { role }] of Object.entries(plan.cells))
      if (INPUTS.includes(role) && !covered.has(at)) expect(asked, at).toContain(at);
  });

  it('counts before it calls, so that an empty cell never becomes a reading of 0', () => {
    for (const result of runResults(setup)) {
      if (!/Readings/.test(result.custom)) continue;
      const { formula } = plan.cells[rangeNamed(plan, result.name)]!;
      expect(formula, result.name).toMatch(/^=IF\(COUNT\([\w$:]+\)(<\d+|=0),/);
      // Every grid a function takes is counted in full first.
      for (const [, stem] of result.custom.matchAll(/\b(\w+)Readings\b/g))
        expect(
          ['Net', 'Readings'].some((end) => {
            const range = addressesOf(plan)[`${stem}${end}`];
            return (
              range !== undefined &&
              [`${stem}${end}`, absolute(range)].some((grid) => formula!.includes(`COUNT(${grid})<`))
            );
          }),
          `${result.name} ${stem}`,
        ).toBe(true);
    }
  });

  it('merges without overlap and prints one page wide, budgets on pages of their own', () => {
    const seen = new Set<string>();
    for (const at of plan.merges.flatMap((range) => cellsOf(range))) {
      expect(seen, at).not.toContain(at);
      seen.add(at);
    }
    // One page across; budgets are an annex.
    expect(plan.print.columnBreaks).toBeUndefined();
    const headed = (plan.print.breaks ?? []).map((row) => String(plan.cells[`A${row}`]?.value));
    expect(headed.some((words) => words.startsWith('Budget, white'))).toBe(true);
    const print = new Set(cellsOf(plan.print.area));
    for (const at of Object.keys(plan.cells)) expect(print).toContain(at);
    expect(plan.cells[plan.start], plan.start).toBeDefined();
  });

  it('keeps text legible on its tint: 4.5 to 1 (WCAG 2.2, 1.4.3)', () => {
    for (const { role } of Object.values(plan.cells)) {
      const { color = '#000000', fill = '#FFFFFF' } = styleOf({ role });
      expect(contrastRatio(color, fill), role).toBeGreaterThanOrEqual(4.5);
    }
    for (const { color, fill } of plan.alerts) expect(contrastRatio(color, fill)).toBeGreaterThanOrEqual(4.5);
    // A heat map colours readings whose own text is quiet grey.
    for (const { low, middle, high } of plan.scales)
      for (const fill of [low, middle ?? low, high])
        expect(contrastRatio(styleOf({ role: 'derived' }).color!, fill)).toBeGreaterThanOrEqual(4.5);
  });
});

describe('a full run', () => {
  const count = (plan: Plan, pattern: RegExp) =>
    plan.names
      .filter(({ name }) => pattern.test(name))
      .flatMap(({ range }) => cellsOf(range))
      .filter((at) => plan.cells[at]!.role === 'reading').length;

  it.each([
    ['full-fields', /^(Red|Green|Blue)Readings$/],
    ['tiled-everything', /^Pattern[ABC]$/],
  ] as const)('is 9 white and 27 colour readings (common practice): %s', (name, colour) => {
    const plan = runPlan(SETUPS[name]!, 'test1');
    expect(count(plan, /^WhiteReadings$/)).toBe(9);
    expect(count(plan, colour)).toBe(27);
  });

  it('lays grids as seen facing the screen: three rows of three side by side', () => {
    const plan = runPlan(SETUPS['full-fields']!, 'test1');
    for (const stem of ['White', 'Red', 'Green', 'Blue', 'Black'])
      for (const part of ['Readings', 'Range', 'Net'])
        expect(rectOf(rangeNamed(plan, `${stem}${part}`))).toMatchObject({
          rows: 3,
          columns: 3,
        });
  });
});
