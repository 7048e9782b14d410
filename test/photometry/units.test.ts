import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CANDELA_PER_M2, LUX, METRES } from '../../src/photometry/units';
import { UNIT_FACTORS } from '../references/photometry';
import { expectRow } from './closeto';

const FACTORS = { ...METRES, ...LUX, ...CANDELA_PER_M2 };

describe('unit factors', () => {
  it.each(UNIT_FACTORS)('$name = $printed ($source)', (row) => expectRow(FACTORS[row.unit], row));

  it.each([
    ['m', 1],
    ['cm', 1e-2],
    ['mm', 1e-3],
  ] as const)('%s is a power of ten of the metre (SI)', (unit, factor) => expect(METRES[unit]).toBe(factor));

  it('a yard is three feet of twelve inches', () => {
    expect(12 * METRES.in).toBeCloseTo(METRES.ft, 15);
    expect(3 * METRES.ft).toBeCloseTo(0.9144, 15);
  });

  it('goes to another unit and back', () => {
    const table = [...Object.values(METRES), ...Object.values(LUX), ...Object.values(CANDELA_PER_M2)];
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.constantFrom(...table),
        (value, factor) => {
          expect(Math.abs((value * factor) / factor / value - 1)).toBeLessThan(4 * Number.EPSILON);
        },
      ),
    );
  });
});
