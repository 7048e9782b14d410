import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOARD_POINTS } from '../../src/fields/board';
import { numberMarks } from '../../src/fields/digits';
import { TEST_FIELDS } from '../../src/fields/field';
import { markerMarks } from '../../src/fields/marker';
import { measuringPoints } from '../../src/photometry/points';
import { paint } from './raster';

const POINTS = [...measuringPoints(13), ...BOARD_POINTS];
const SIZE = { width: 1280, height: 800 };

/** Black with one channel as a picture of `.` and `#`. */
function drawn(number: number): string[] {
  const size = { width: 11, height: 5 };
  const { rgb } = paint(size, numberMarks(number, 0, 0, 1, [128, 128, 128]));
  return Array.from({ length: 5 }, (_, y) =>
    Array.from({ length: 11 }, (_, x) => (rgb[(y * 11 + x) * 3] ? '#' : '.')).join(''),
  );
}

test('numbers are drawn in dots', () => {
  expect(drawn(13)).toEqual(['.#..###....', '##....#....', '.#..###....', '.#....#....', '###.###....']);
});

describe('the marker', () => {
  test('stays within the image wherever the point is, at any size', () => {
    const side = fc.integer({ min: 320, max: 4096 });
    fc.assert(
      fc.property(side, side, fc.constantFrom(...POINTS), (width, height, point) => {
        for (const mark of markerMarks({ width, height }, point)) {
          expect(Number.isInteger(mark.x) && Number.isInteger(mark.y)).toBe(true);
          expect(Math.min(mark.x, mark.y)).toBeGreaterThanOrEqual(0);
          expect(mark.x + mark.width).toBeLessThanOrEqual(width);
          expect(mark.y + mark.height).toBeLessThanOrEqual(height);
        }
      }),
    );
  });

  test('leaves the place of the sensor itself as the field is', () => {
    for (const { number, u, v } of POINTS) {
      const [x, y] = [u * SIZE.width, v * SIZE.height];
      for (const mark of markerMarks(SIZE, { number, u, v })) {
        const isAside = mark.x > x + 9 || mark.x + mark.width < x - 9;
        const isAboveOrBelow = mark.y > y + 9 || mark.y + mark.height < y - 9;
        expect(isAside || isAboveOrBelow).toBe(true);
      }
    }
  });

  test('is grey and black, so that it shows on every field and outshines none', () => {
    const colours = new Set(markerMarks(SIZE, POINTS[4]!).map(({ colour }) => colour.join()));
    expect([...colours].sort()).toEqual(['0,0,0', '128,128,128']);
    for (const field of TEST_FIELDS) {
      const plain = field.marks(SIZE);
      const marked = paint(SIZE, [...plain, ...markerMarks(SIZE, POINTS[0]!)]);
      expect(Buffer.from(marked.rgb).equals(paint(SIZE, plain).rgb)).toBe(false);
    }
  });
});
