import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colourLightOutput, lightOutput } from '../../src/photometry/lightoutput';
import { chain } from '../../src/photometry/outcome';
import { mean, NINE, netIlluminances } from '../../src/photometry/reading';
import { PRIMARIES, patternShowing, sortTiles } from '../../src/photometry/tiles';
import { AS_READ } from './asread';
import { goodOf } from './outcome';

const nine = fc.array(fc.double({ min: 50, max: 5000, noNaN: true }), { minLength: 9, maxLength: 9 });
const area = fc.double({ min: 0.1, max: 20, noNaN: true });
const lumens = (readings: readonly number[], m2: number, ambient: number | readonly number[] = 0) =>
  goodOf(
    chain(netIlluminances(readings, NINE, 'white', { ...AS_READ, ambient }), (net) => lightOutput(net, m2)),
  );
function close(a: number, b: number): void {
  expect(Math.abs(a - b)).toBeLessThan(1e-11 * Math.max(1, Math.abs(b)));
}

describe('light output', () => {
  it('scales with the readings and with the area', () => {
    const factor = fc.double({ min: 0.1, max: 10, noNaN: true });
    fc.assert(
      fc.property(nine, area, factor, (readings, m2, k) => {
        close(
          lumens(
            readings.map((e) => e * k),
            m2,
          ),
          k * lumens(readings, m2),
        );
        close(lumens(readings, m2 * k), k * lumens(readings, m2));
      }),
    );
  });

  it('does not change when the points are permuted', () => {
    const permuted = nine.chain((readings) =>
      fc.tuple(fc.constant(readings), fc.shuffledSubarray(readings, { minLength: 9 })),
    );
    fc.assert(
      fc.property(permuted, area, ([readings, shuffled], m2) => {
        close(lumens(shuffled, m2), lumens(readings, m2));
      }),
    );
  });

  it('ambient may be taken off before or after averaging, once or point by point', () => {
    const ambients = fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(nine, ambients, area, (readings, ambient, m2) => {
        close(lumens(readings, m2, ambient), lumens(readings, m2) - mean(ambient) * m2);
        close(lumens(readings, m2, mean(ambient)), lumens(readings, m2, ambient));
      }),
    );
  });

  it('lies between the smallest and the largest reading times the area', () => {
    fc.assert(
      fc.property(nine, area, (readings, m2) => {
        const e = lumens(readings, m2) / m2;
        expect(e).toBeGreaterThanOrEqual(Math.min(...readings) * (1 - 1e-12));
        expect(e).toBeLessThanOrEqual(Math.max(...readings) * (1 + 1e-12));
      }),
    );
  });

  it('tiled and full entry of the same light agree', () => {
    fc.assert(
      fc.property(nine, nine, nine, area, (red, green, blue, m2) => {
        const light = { red, green, blue };
        const patterns = [0, 1, 2].map((p) =>
          [0, 1, 2].map((r) =>
            [0, 1, 2].map((c) => {
              const primary = PRIMARIES.find((name) => patternShowing(name, r, c) === p)!;
              return light[primary][3 * r + c]!;
            }),
          ),
        );
        const sorted = PRIMARIES.map((primary) => sortTiles(patterns, primary).flat());
        expect(sorted).toEqual([red, green, blue]);
        const [r, g, b] = sorted.map((readings) => lumens(readings, m2)) as [number, number, number];
        expect(colourLightOutput(r, g, b)).toBe(
          colourLightOutput(lumens(red, m2), lumens(green, m2), lumens(blue, m2)),
        );
      }),
    );
  });
});
