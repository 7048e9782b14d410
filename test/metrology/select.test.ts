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

/** The same values, with a count of how often one is read. */
function counted(list: readonly number[]) {
  const count = { reads: 0 };
  const values = new Proxy(Float64Array.from(list), {
    get(target, key) {
      count.reads += 1;
      return target[key as unknown as number];
    },
  });
  return { values, count };
}
const upwards = (n: number) => Array.from({ length: n }, (_, i) => i);

describe('selection', () => {
  // The median of the first, the middle and the last divides what is sorted in halves: n + n/2 + n/4 + … reads.
  it.each([
    ['upwards', (n: number) => upwards(n)],
    ['downwards', (n: number) => upwards(n).reverse()],
  ])('reads values that are sorted %s a few times each', (_, made) => {
    const n = 2001;
    for (const place of [0, 50, 700, 1300, 1950, 2000]) {
      const { values, count } = counted(made(n));
      select(values, place, 0, n - 1);
      expect(values[place]).toBe(place);
      expect(count.reads, `place ${place}`).toBeLessThan(5 * n);
    }
  });

  it('stops once the value divides the others: the median of sorted ones is found by reading each once', () => {
    const { values, count } = counted(upwards(2001));
    select(values, 1000, 0, 2000);
    expect(count.reads).toBeLessThan(2001 + 10);
  });

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
        // One more than there are, too: an interval that holds one trial asks for it.
        const count = 1 + (pick % (list.length + 1));
        const values = Float64Array.from(list);
        sortEnds(values, count);
        const full = Float64Array.from(list).sort();
        expect(values.slice(0, count)).toEqual(full.slice(0, count));
        expect(values.slice(-count)).toEqual(full.slice(-count));
      }),
    );
  });
});
