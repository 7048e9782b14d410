// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { runInputOf } from '../../src/sheets/run/input';
import { viewOf } from '../../taskpane/run/view';
import { type Opinion, secondOpinion } from '../../taskpane/simulation/opinion';
import { compareOpinion } from '../../taskpane/simulation/verdict';
import type { FakeHost } from './fakehost';
import { putResult, sure } from './scenes';

const TRIALS = 100_000;

async function questionOf(host: FakeHost) {
  const input = runInputOf((await host.read(host.active)).values);
  if (!input.ok) throw new Error(input.problems.map(({ message }) => message).join(' '));
  return { ...input.value, trials: TRIALS, seed: 7 };
}
async function answerOf(host: FakeHost): Promise<Opinion> {
  const opinion = secondOpinion(await questionOf(host), () => undefined);
  if (!opinion.ok) throw new Error(opinion.problems.map(({ message }) => message).join(' '));
  return opinion.value;
}
const figuresOf = async (host: FakeHost) =>
  Object.values(viewOf(await host.read(host.active)).sure.figures).filter((one) => one !== undefined);

/** What is usual where nothing is said. */
const USUAL = { statement: 'limit of error', light: 'unknown' } as const;

describe('a run as the model takes it', () => {
  it('names every reading that is missing', async () => {
    const host = await sure();
    host.put(host.active, 'WhiteReadings', [['over', 1148, 1080]]);
    const input = runInputOf({
      ...(await host.read(host.active)).values,
      RedReadings: {
        values: [
          [null, 1, 1],
          [1, 1, 1],
          [1, 1, 1],
        ],
      },
    });
    expect(!input.ok && input.problems.map(({ where }) => where)).toEqual([
      'white reading at top left (point 1)',
      'red reading at top left (point 1)',
    ]);
  });

  it('takes no range factor for 1 where the sheet has lost its name', async () => {
    const { values } = await (async (host) => host.read(host.active))(await sure());
    for (const name of ['WhiteRange', 'AmbientRange', 'BlackRange'] as const) {
      expect(Object.keys(values)).toContain(name);
      const { [name]: lost, ...rest } = values;
      const input = runInputOf(rest);
      expect(!input.ok && input.problems.map(({ where }) => where), name).toEqual([
        `${name.replace('Range', '').toLowerCase()} range factor`,
      ]);
    }
  });

  it('takes empty entries for unknown, and nought for a statement', async () => {
    const host = await sure({
      uncertainty: { ...USUAL, meterClass: 'B', level: 0.99, rule: 'no guard band', square: 0 },
    });
    const { input, level } = await questionOf(host);
    expect(input.meter).toMatchObject({ meterClass: 'B', ofReading: undefined, digits: undefined });
    expect(input.image).toMatchObject({ squareHalf: 0, widthHalf: undefined });
    expect(level).toBe(0.99);
  });
});

describe('the second opinion', () => {
  it('tells how far it is, to the end', async () => {
    const heard: number[] = [];
    secondOpinion(await questionOf(await sure()), (done, trials) => heard.push(done / trials));
    expect(heard.at(-1)).toBe(1);
    expect(heard).toEqual([...heard].sort((a, b) => a - b));
  });

  it('agrees with a sheet that has the model’s figures, and says so in one line', async () => {
    const host = await sure();
    const { agrees, verdict, rows } = compareOpinion(await answerOf(host), await figuresOf(host));
    expect(agrees).toBe(true);
    expect(verdict).toMatch(
      /^The sheet, the model computed afresh from the readings, and the simulation agree/,
    );
    // Issue: u within 1 % where the model is near linear.
    for (const { u, simulatedU, isNearLinear } of rows)
      if (isNearLinear) expect(Math.abs(simulatedU / u - 1)).toBeLessThan(0.01);
    expect(rows.filter(({ isNearLinear }) => !isNearLinear).map(({ id }) => id)).toEqual(['Uniformity']);
  });

  it('shows the uniformity in per cent, and says that scatter may decide which points it is of', async () => {
    const host = await sure();
    const { rows, remarks, verdict } = compareOpinion(await answerOf(host), await figuresOf(host));
    const uniformity = rows.find(({ id }) => id === 'Uniformity')!;
    expect(uniformity).toMatchObject({ unit: '%', label: 'uniformity (min ÷ max)' });
    expect(uniformity.sheet!.value).toBeCloseTo(uniformity.value, 6);
    expect(uniformity.value).toBeGreaterThan(50);
    expect(verdict).toContain('agree, except for the uniformity (min ÷ max)');
    expect(remarks.join(' ')).toMatch(/looks for them in every trial/);
    // Searched anew in every trial, the smallest is smaller and the largest larger than any two fixed points.
    const middle = (uniformity.symmetric.low + uniformity.symmetric.high) / 2;
    expect(middle).toBeLessThan(uniformity.value);
  });

  it('finds a sheet whose U was tampered with', async () => {
    const host = await sure();
    putResult(host, 'ColourExpanded', 10);
    const { agrees, verdict, remarks } = compareOpinion(await answerOf(host), await figuresOf(host));
    expect(agrees).toBe(false);
    expect(verdict).toContain('differ');
    expect(remarks[0]).toMatch(/^Colour light output: the sheet has .* ± 10.*Do not use the result/);
  });

  it('says where one flat-topped cause makes the intervals differ', async () => {
    // Nothing entered: the meter's ± 20 % outweighs everything. A rectangle's 95.45 % interval is ± 0.9545 a, and
    // 2u is ± 1.155 a: plain geometry.
    const host = await sure({
      uncertainty: { ...USUAL, meterClass: 'unknown', level: 0.9545, rule: 'no guard band' },
    });
    const opinion = await answerOf(host);
    const white = opinion.figures.find(({ id }) => id === 'White')!;
    expect(white.symmetric.high - white.symmetric.low).toBeLessThan(2 * white.expanded);
    const { remarks } = compareOpinion(opinion, await figuresOf(host));
    expect(remarks.join(' ')).toMatch(
      /White light output, colour light output(?:, colour to white ratio)? and screen luminance: the ends .*not bell-shaped/,
    );
  });

  it('scales lumens to the true area of an image that is no rectangle, and not the ratio', async () => {
    const question = await questionOf(await sure());
    const [one, two] = [question, { ...question, areaScale: 1.5 }].map((asked) => {
      const opinion = secondOpinion(asked, () => undefined);
      if (!opinion.ok) throw new Error('no opinion');
      return opinion.value.figures;
    });
    const of = (figures: typeof one, id: string) => figures!.find((figure) => figure.id === id)!;
    for (const part of ['value', 'u', 'expanded', 'simulatedU'] as const) {
      expect(of(two, 'White')[part]).toBeCloseTo(1.5 * of(one, 'White')[part], 6);
      expect(of(two, 'Ratio')[part]).toBe(of(one, 'Ratio')[part]);
    }
  });

  it('is of white alone where there is no colour', async () => {
    const question = await questionOf(await sure());
    const { red: _r, green: _g, blue: _b, ...input } = question.input;
    const opinion = secondOpinion({ ...question, input }, () => undefined);
    expect(opinion.ok && opinion.value.figures.map(({ id }) => id)).toEqual([
      'White',
      'Luminance',
      'Uniformity',
    ]);
  });
});
