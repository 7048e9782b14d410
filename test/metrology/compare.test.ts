import { describe, expect, it } from 'vitest';
import { combined, outputOf } from '../../src/metrology/model';
import type { RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { compare, compareAsRatio, comparePairs } from './compare';
import { type Common, merge } from './merge';
import { got } from './outcome';
import { EXACT, flat, typicalRun } from './runs';

function together(inputs: Record<string, RunInput>, common: Common) {
  const runs = Object.entries(inputs).map(([name, input]) => ({ name, model: got(runModel(input)) }));
  return merge(runs, common);
}
const third = (half: number) => half / Math.sqrt(3);

describe('two runs with one meter and one image', () => {
  const meter = { ofReading: 0.03, digits: 0, digit: 0 };
  const inputs = { A: { ...EXACT, meter }, B: { ...EXACT, meter, white: flat(900) } };

  it('difference: the meter counts only on what is left (on paper: 3 % of 300 lm)', () => {
    const d = compare(together(inputs, ['meter', 'image']), 'A/white', 'B/white');
    expect(d.value).toBeCloseTo(300, 9);
    expect(d.u).toBeCloseTo(third(9), 9);
    expect(d.isDifferent).toBe(true);
  });

  it('difference with two meters: both count in full (on paper: 3 % of 3000 and of 2700 lm)', () => {
    const d = compare(together(inputs, ['image']), 'A/white', 'B/white');
    expect(d.u).toBeCloseTo(Math.hypot(third(90), third(81)), 9);
    // U = 2·69.9 lm is less than 300 lm still.
    expect(d.isDifferent).toBe(true);
  });

  it('ratio: free of the shared meter and image, whatever their size', () => {
    const wide = (input: RunInput): RunInput => ({ ...input, image: { ...input.image, widthHalf: 0.2 } });
    const model = together({ A: wide(inputs.A), B: wide(inputs.B) }, ['meter', 'image']);
    const r = compareAsRatio(model, 'A/white', 'B/white');
    expect(r.value).toBeCloseTo(10 / 9, 12);
    expect(r.u).toBeCloseTo(0, 12);
    const apart = compareAsRatio(
      together({ A: wide(inputs.A), B: wide(inputs.B) }, []),
      'A/white',
      'B/white',
    );
    expect(apart.u).toBeGreaterThan(0.05);
  });

  it('spectral mismatch is shared only where the same source is said to be', () => {
    const inputs = { A: { ...EXACT, white: flat(1000, 0.02) }, B: { ...EXACT, white: flat(1000, 0.02) } };
    const u = (common: Common) => compare(together(inputs, common), 'A/white', 'B/white').u;
    expect(u(['meter', 'image', 'spectrum'])).toBeCloseTo(0, 9);
    expect(u(['meter', 'image'])).toBeCloseTo(third(60) * Math.SQRT2, 9);
  });
});

describe('different or not distinguishable', () => {
  it('a run does not differ from its own repetition; it does from one half as bright', () => {
    const half = { ...typicalRun(2), white: { ...typicalRun(2).white, range: 5 } };
    const model = together({ A: typicalRun(1), B: typicalRun(2), C: half }, ['meter', 'image']);
    const pairs = comparePairs(model, ['A/white', 'B/white', 'C/white']);
    expect(pairs.map(({ a, b, isDifferent }) => [a, b, isDifferent])).toEqual([
      ['A/white', 'B/white', false],
      ['A/white', 'C/white', true],
      ['B/white', 'C/white', true],
    ]);
  });

  it('equal results with U = 0 are not different', () => {
    const model = together({ A: EXACT, B: EXACT }, ['meter', 'image']);
    expect(compare(model, 'A/white', 'B/white')).toMatchObject({
      value: 0,
      expanded: 0,
      isDifferent: false,
    });
  });
});

describe('merging', () => {
  it('leaves each result its own uncertainty', () => {
    const single = got(runModel(typicalRun()));
    const model = together({ A: typicalRun(), B: typicalRun(2) }, ['meter', 'image', 'screen', 'spectrum']);
    for (const { id } of single.outputs) {
      expect(combined(model.components, outputOf(model, `A/${id}`))).toBeCloseTo(
        combined(single.components, outputOf(single, id)),
        9,
      );
    }
  });

  it('tells which outputs there are when asked for one that is not there', () => {
    expect(() => outputOf(got(runModel(EXACT)), 'purple')).toThrow(/white, red/);
  });
});
