import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { select, sortEnds } from '../../src/metrology/select';

const numbers = fc.array(
  // Adding 0 makes 0 of −0: which of the two comes first means nothing to either sort.
  fc
    .oneof(fc.integer({ min: -5, max: 5 }), fc.double({ noNaN: true, min: -1e6, max: 1e6 }))
    .map((x) => x + 0),
  {
    minLength: 1,
    maxLength: 200,
  },
);

describe('selection', () => {
  it('puts the value there that a full sort would', () => {
    fc.assert(
      fc.property(numbers, fc.nat(), (list, pick) => {
        const values = Float64Array.from(list);
        const place = pick % list.length;
        select(values, place, 0, list.length - 1);
        expect(values[place]).toBe(Float64Array.from(list).sort()[place]);
      }),
    );
  });

  it('sorts both ends as a full sort would', () => {
    fc.assert(
      fc.property(numbers, fc.nat(), (list, pick) => {
        const count = 1 + (pick % list.length);
        const values = Float64Array.from(list);
        sortEnds(values, count);
        const full = Float64Array.from(list).sort();
        expect(values.slice(0, count)).toEqual(full.slice(0, count));
        expect(values.slice(-count)).toEqual(full.slice(-count));
      }),
    );
  });
});
