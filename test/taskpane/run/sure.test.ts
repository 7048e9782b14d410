// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { adviceOf, type CauseShare, groupShares, rectangleWords } from '../../../taskpane/run/contributors';
import { verdictSentence } from '../../../taskpane/run/decision';
import { viewOf } from '../../../taskpane/run/view';
import type { FakeHost } from '../fakehost';
import { putResult, runHost, sure } from '../scenes';

const view = async (host: FakeHost) => viewOf(await host.read(host.active));

describe('results with their doubt', () => {
  it('are reported with two digits of U, k and the level (GUM 7.2.6; the digits are rounded by hand)', async () => {
    const host = await sure();
    putResult(host, 'WhiteLightOutput', 2231.4);
    putResult(host, 'WhiteExpanded', 118.2);
    putResult(host, 'WhiteK', 2.004);
    const { figures } = (await view(host)).sure;
    expect(figures.WhiteLightOutput).toMatchObject({ text: '(2230 ± 120) lm', basis: 'k = 2.00, 95.45 %' });
    expect(figures.ColourToWhite!.text).not.toContain('lm');
  });

  it('are the plain formula’s while the function does not answer', async () => {
    const host = await sure();
    putResult(host, 'WhiteExpandedPlain', 90);
    putResult(host, 'WhiteExpanded', { error: '#NAME?' });
    expect((await view(host)).sure.figures.WhiteLightOutput!.expanded).toBe(90);
  });

  it('wait for each other: no doubt, no figure', async () => {
    const { figures, contributors, decisions } = (await view(await runHost())).sure;
    expect([figures, contributors, decisions]).toEqual([{}, [], []]);
  });
});

describe('decisions', () => {
  it('come with their picture in words', async () => {
    const host = await sure();
    putResult(host, 'WhiteLightOutput', 2600);
    putResult(host, 'WhiteExpanded', 143);
    const [white] = (await view(host)).sure.decisions;
    expect(white!.words).toBe(
      'White light output (2600 ± 140) lm, from 2457 lm to 2743 lm; limit 2400 lm, guard band up to 2543 lm and down to 2257 lm: pass.',
    );
  });

  it('are none where no value was rated', async () => {
    const host = await sure();
    putResult(host, 'ColourLimit', 'no rated value');
    putResult(host, 'ColourVerdict', 'no rated value');
    expect((await view(host)).sure.decisions.map(({ id }) => id)).toEqual(['White']);
  });

  it('have no guard band where the rule has none', async () => {
    const host = await sure({
      uncertainty: {
        meterClass: 'A',
        statement: 'limit of error',
        light: 'unknown',
        level: 0.95,
        rule: 'no guard band',
      },
    });
    expect((await view(host)).sure.decisions[0]).toMatchObject({ guard: 0, hasFour: false });
  });

  // ILAC-G8:09/2019, 4.2.1 to 4.2.3: what each outcome says of value, limit and guard band.
  it.each([
    ['pass', 1, true, /by more than its own doubt/],
    ['conditional pass', 1, true, /Above the limit, but by less/],
    ['conditional fail', 1, true, /Below the limit, but by less/],
    ['fail', 1, true, /Below the limit by more/],
    ['fail', 1, false, /Not above the limit by its own doubt/],
    ['pass', 0, false, /no account of the doubt/],
    ['fail', 0, false, /no account of the doubt/],
  ] as const)('%s, guard band %d, four outcomes %s', (verdict, guard, hasFour, words) => {
    expect(verdictSentence({ verdict, guard, hasFour })).toMatch(words);
  });
});

describe('agreement', () => {
  it('covers uncertainties and decisions as well', async () => {
    const host = await sure();
    host.put(host.active, 'DecisionAgreement', [['agree'], ['differ'], ['agree']]);
    const { agreement } = await view(host);
    expect(agreement.agreeing).toBe(20);
    expect(agreement.differing).toEqual(['Degrees of freedom, white']);
  });
});

describe('contributors', () => {
  it('gather the rows of a budget by what one can do about them; shares add up', async () => {
    const [white, colour] = (await view(await sure())).sure.contributors;
    expect(white!.causes.map(({ cause, share }) => [cause, Number(share.toFixed(3))])).toEqual([
      ['meter', 0.42],
      ['image', 0.34],
      ['drift', 0.1],
      ['spectral', 0.06],
      ['ambient', 0.05],
      ['points', 0.03],
    ]);
    // Every row of the sheet's budget belongs to a cause.
    for (const { causes } of [white!, colour!])
      expect(causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  it('know every row that any budget of a run sheet can have', async () => {
    const host = await runHost({ repeats: 2, ambient: 'nine points' });
    const { values } = await host.read(host.active);
    for (const id of ['White', 'Colour', 'Ratio'] as const)
      for (const label of values[`${id}Components`]!.values.flat())
        expect(groupShares([String(label)], [1]), String(label)).toHaveLength(1);
    for (const label of values.CauseLabels!.values.flat())
      expect(groupShares([String(label)], [1]), String(label)).toHaveLength(1);
  });

  it('list what was assumed, in the sheet’s own words', async () => {
    expect((await view(await sure())).sure.assumptions).toEqual([
      { label: 'Meter, ± digits', words: '± 10 digits, as hand-held meters often state' },
    ]);
  });
});

describe('what would help most', () => {
  const causes = (...shares: [CauseShare['cause'], number, boolean?][]): CauseShare[] =>
    shares.map(([cause, share, isAssumed = false]) => ({ cause, words: cause, share, isAssumed }));
  it.each([
    [causes(['meter', 0.8], ['image', 0.15], ['points', 0.05]), /a better meter.*, not more readings\.$/],
    [causes(['points', 0.8], ['meter', 0.05]), /reading each point more often, not another meter\.$/],
    [causes(['meter', 0.6], ['points', 0.3]), /a better meter, or a calibration of this one\.$/],
    [causes(['meter', 0.8, true]), /knowing the meter/],
    [
      causes(['meter', 0.5], ['image', 0.4], ['points', 0.1]),
      /a better meter.*and as much, measuring the image/,
    ],
    [causes(['drift', 1]), /warm-up.*not more readings/],
    [[], /Nothing is uncertain/],
  ])('%j', (list, words) => expect(adviceOf(list)).toMatch(words));
});

// A rectangle alone holds 95.45 % within 0.9545 · √3 = 1.65 of its standard deviations and not within 2 (JCGM 101, 6.4.2).
it.each([
  [['Meter, ± of reading', 'Drift'], [0.86, 0.14], false, /“Meter, ± of reading”, makes 86 % .* too wide/],
  [['Meter, ± of reading', 'Drift'], [0.86, 0.14], true, /^$/],
  [['Repeatability, white', 'Drift'], [0.9, 0.1], false, /^$/],
  [['Image size', 'Drift'], [0.6, 0.4], false, /^$/],
])('a sum that one bound rules is said to be: %j %j', (labels, shares, isNormal, words) =>
  expect(rectangleWords(labels, shares, isNormal)).toMatch(words),
);
