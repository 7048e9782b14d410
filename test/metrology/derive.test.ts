import { describe, expect, it } from 'vitest';
import { ratio, sum } from '../../src/metrology/derive';
import { got } from './outcome';

/* On paper: 6 lm, of which the first cause moves 2, and 3 lm, moved 1 by it and 5 by another. */
const a = { id: 'a', label: 'one light', unit: 'lm', value: 6, sensitivities: [2, 0] };
const b = { id: 'b', label: 'other light', unit: 'lm', value: 3, sensitivities: [1, 5] };

describe('results made of two others', () => {
  it('a sum moves by what moves either: 9, by 3 and 5', () => {
    const naming = { id: 'both', label: 'both lights', unit: 'lm' };
    expect(sum(naming, a, b)).toEqual({ ...naming, value: 9, sensitivities: [3, 5] });
  });
  it('a ratio loses what moves both by the same part: 2, by 2/3 − 6/9 = 0 and −5 · 6/9', () => {
    const naming = { id: 'parts', label: 'ratio', unit: '' };
    const made = got(ratio(naming, a, b));
    expect(made).toMatchObject({ ...naming, value: 2 });
    expect(made.sensitivities).toHaveLength(2);
    expect(made.sensitivities[0]).toBeCloseTo(0, 15);
    expect(made.sensitivities[1]).toBeCloseTo(-10 / 3, 15);
  });
});
