import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { Host } from '../../src/excel/host';
import { GOLDEN } from '../../src/excel/selfcheck/formulas';
import type { ProbeResult } from '../../src/excel/selfcheck/probe';
import { PROBES, selfCheck } from '../../src/excel/selfcheck/run';
import { cases } from '../tools/amount';
import { standBetween } from '../workbench/between';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/*
 * The questions to the spreadsheet program, put to the workbench; then each with an answer that is wrong, to see it
 * found. What needs a page (window, clipboard, storage, worker) is asked in a browser.
 */

let host: Host;
let test: TestHost;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
  vi.stubGlobal('CustomFunctions', { Error: class extends Error {} });
});

/** No window here. */
const PAGE = ['window', 'clipboard', 'database', 'worker'];
/** No API set above 1.9 either, and no charts, which the embedded engine does not draw. */
const NOT_OFFERED = ['file', 'note', 'chart'];

async function ask(ids: readonly string[]): Promise<ProbeResult[]> {
  const results: ProbeResult[] = [];
  const surroundings = { host, smallFile: async () => '', worker: async () => true };
  await selfCheck(
    surroundings,
    PROBES.filter(({ id }) => ids.includes(id)),
    { signal: new AbortController().signal, begin: () => undefined, ended: (one) => results.push(one) },
  );
  return results;
}
const brief = (results: readonly ProbeResult[]) =>
  results.map(({ probe, state, came }) => `${probe.id}: ${state}: ${came}`);
const sheets = () => test.engine.sheets().map(({ name }) => name);

const SHORT = PROBES.filter(({ id, isLong }) => !isLong && ![...PAGE, ...NOT_OFFERED].includes(id));

it('has some thirty questions, each with its own id, what is expected and what it means', () => {
  expect(PROBES.length).toBeGreaterThanOrEqual(30);
  expect(new Set(PROBES.map(({ id }) => id)).size).toBe(PROBES.length);
});

it('what the program does not have is told as such', async () => {
  expect((await ask(NOT_OFFERED)).map(({ state }) => state)).toEqual(NOT_OFFERED.map(() => 'not offered'));
});

/** Wrong answers: what stands in the answers of the program, or in what is sent to it, and what stands there instead. */
const ANSWERS: Readonly<Record<string, readonly [from: RegExp, to: string]>> = {
  'first-result': [/"Values":\[\[100\]\]/g, '"Values":[["#NAME?"]]'],
  missing: [/"#N\/A"/g, '"#VALUE!"'],
  merged: [/"Values":\[\[100\]\]/g, '"Values":[["#SPILL!"]]'],
  table: [/\b0\.9/g, '0.8'],
  pending: [/"Values":\[\[250\]\]/g, '"Values":[[-1]]'],
  mended: [/"Values":\[\[1\]\]/g, '"Values":[["#VALUE!"]]'],
  spilled: [/"Formulas":\[\["=LIGHT/g, '"Formulas":[["LIGHT'],
  formulas: [/=INDEX\(/g, '=INDIRECT('],
  statistics: [/2\.22813/g, '2.22913'],
  formats: [/"0\.00"\]\]/g, '"0.0"]]'],
  texts: [/"Values":\[\["=1\+1"\]\]/g, '"Values":[[2]]'],
  rules: [/200000/g, '100000'],
  'relative-rule': [/=LEN\(A/g, '=LEN(B'],
  names: [/"Visible":false/g, '"Visible":true'],
  copy: [/"Values":\[\[70\]\]/g, '"Values":[[10]]'],
  protection: [/"Code":"AccessDenied"/g, '"Code":"GeneralException"'],
  page: [/"Landscape"/g, '"Portrait"'],
  // A row is lost on the way.
  'batch-200': [/"Values":\[\[[^\]]*\],(?=(?:\[[^\]]*\],){150})/g, '"Values":['],
  'read-100000': [/"Values":\[\[1,1,/g, '"Values":[[1,0,'],
};
/** Others go wrong because something else is asked than was meant. */
const QUESTIONS: Readonly<Record<string, readonly [from: RegExp, to: string]>> = {
  arguments: [/=NA\(\)/g, '=5'],
  decimals: [/FIXED\(1\.5,1\)/g, 'SUBSTITUTE(1.5,".",",")'],
  branch: [/IF\(TRUE,/g, 'IF(FALSE,'],
  'run-sheet': [/\[812,905,820\]/g, '[813,905,820]'],
};

it('every question is broken once', () => {
  const broken = [...Object.keys(ANSWERS), ...Object.keys(QUESTIONS), 'error-class', 'events'];
  expect(broken.sort()).toEqual(SHORT.map(({ id }) => id).sort());
});

it('the workbench answers every question as expected, and nothing of the check is left', async () => {
  const answers = brief(await ask(SHORT.map(({ id }) => id)));
  expect(answers).toHaveLength(SHORT.length);
  expect(answers.filter((answer) => !/: as expected: /.test(answer))).toEqual([]);
  expectNothingLeft();
});

function expectNothingLeft(): void {
  expect(sheets()).toEqual(['Sheet1']);
  expect(test.engine.activeSheet.name).toBe('Sheet1');
}

/** Answers are all spoiled in one way, and so are questions: some of each in every run of the suite. */
const some = <T>(of: Readonly<Record<string, T>>, usual: readonly string[]) => {
  const all = Object.entries(of);
  return cases(
    all.filter(([id]) => usual.includes(id)),
    all.filter(([id]) => !usual.includes(id)),
  );
};

describe('a wrong answer is found; nothing of the check is left', () => {
  async function judge(id: string, spoil: () => () => void): Promise<void> {
    const mend = spoil();
    const results = await ask([id]);
    mend();
    expect(brief(results)).toEqual([expect.stringMatching(/: (otherwise|failed): /)]);
    expectNothingLeft();
  }
  it.each(some(ANSWERS, ['first-result', 'rules', 'protection']))('%s', (id, [from, to]) =>
    judge(id, () =>
      standBetween(test, {
        after: (_, result) => JSON.parse(JSON.stringify(result).replace(from, to)) as typeof result,
      }),
    ),
  );
  it.each(some(QUESTIONS, ['decimals']))('%s', (id, [from, to]) =>
    judge(id, () => standBetween(test, { sent: (body) => body.replace(from, to) })),
  );
  it('error-class', () =>
    judge('error-class', () => {
      vi.stubGlobal('CustomFunctions', {});
      return () => undefined;
    }));
  it('events', () => judge('events', () => standBetween(test, { isDeaf: true })));
});

it('the digits of the statistical functions are those of general-purpose libraries', async () => {
  // @stdlib, whose quantile of t is good to 1e-11; HYPGEOMDIST is an exact fraction.
  const [{ default: quantile }, { default: cdf }, { default: normalQuantile }, { default: normalCdf }] =
    await Promise.all([
      import('@stdlib/stats-base-dists-t-quantile'),
      import('@stdlib/stats-base-dists-t-cdf'),
      import('@stdlib/stats-base-dists-normal-quantile'),
      import('@stdlib/stats-base-dists-normal-cdf'),
    ]);
  const expected = [
    quantile(1 - 0.05 / 2, 10),
    2 * (1 - cdf(2, 10)),
    normalQuantile(0.975, 0, 1),
    normalCdf(1, 0, 1),
    1760 / 4845,
  ];
  GOLDEN.forEach(([, value], i) => {
    expect(Math.abs(value / expected[i]! - 1)).toBeLessThan(1e-10);
  });
});
