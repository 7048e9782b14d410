import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOARD_POINTS } from '../../src/fields/board';
import { isFieldId, stepFrom, TEST_FIELDS, testField } from '../../src/fields/field';
import { codeOf, LEVELS, limitedCode } from '../../src/fields/levels';
import type { Size } from '../../src/fields/mark';
import { borders } from '../../src/fields/split';
import { tilePrimary } from '../../src/photometry/tiles';
import { expectedPicture, TILED } from './expected';
import { difference, paint } from './raster';

/** Native resolutions, odd sizes, and what a window at 125 or 150 % has. */
const SIZES: readonly Size[] = [
  { width: 1024, height: 768 },
  { width: 1280, height: 800 },
  { width: 1366, height: 768 },
  { width: 1367, height: 1025 },
  { width: 2049, height: 1022 },
];
const ids = Object.keys(TILED) as (keyof typeof TILED)[];

describe.each(SIZES)('at $width x $height', (size) => {
  test.each(ids)('%s is what was specified, pixel by pixel', (id) => {
    expect(difference(paint(size, testField(id).marks(size)), expectedPicture(id, size))).toBe('');
  });
});

test('every field is among those compared, except the grid', () => {
  expect(TEST_FIELDS.map(({ id }) => id).sort()).toEqual([...ids, 'grid'].sort());
});

test('ids, titles and keys are each used once', () => {
  for (const of of ['id', 'title', 'key'] as const)
    expect(new Set(TEST_FIELDS.map((field) => field[of])).size).toBe(TEST_FIELDS.length);
  expect(isFieldId('white')).toBe(true);
  expect(isFieldId('constructor')).toBe(false);
});

test('stepping goes through all and round', () => {
  let id = TEST_FIELDS[0]!.id;
  const seen = TEST_FIELDS.map(() => {
    const here = id;
    id = stepFrom(id, 1);
    return here;
  });
  expect(seen).toEqual(TEST_FIELDS.map((field) => field.id));
  expect(id).toBe(seen[0]);
  expect(stepFrom(id, -1)).toBe(seen.at(-1));
});

const size = fc.record({
  width: fc.integer({ min: 320, max: 900 }),
  height: fc.integer({ min: 320, max: 900 }),
});

test('whatever the size, marks are whole pixels within the image', () => {
  fc.assert(
    fc.property(size, fc.constantFrom(...TEST_FIELDS), (of, field) => {
      for (const { x, y, width, height } of field.marks(of)) {
        for (const length of [x, y, width, height]) expect(Number.isInteger(length)).toBe(true);
        expect(Math.min(x, y, width - 1, height - 1)).toBeGreaterThanOrEqual(0);
        expect(x + width).toBeLessThanOrEqual(of.width);
        expect(y + height).toBeLessThanOrEqual(of.height);
      }
    }),
    { numRuns: 60 },
  );
});

test('equal parts differ by one pixel at most and leave nothing over', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 8192 }), fc.integer({ min: 1, max: 16 }), (length, parts) => {
      const found = borders(length, parts);
      expect([found[0], found.at(-1)]).toEqual([0, length]);
      const widths = found.slice(1).map((border, i) => border - found[i]!);
      expect(Math.max(...widths) - Math.min(...widths)).toBeLessThanOrEqual(1);
    }),
  );
});

describe('tiled patterns', () => {
  test('are those that a run sheet sorts by', () => {
    for (const [p, id] of (['pattern-a', 'pattern-b', 'pattern-c'] as const).entries())
      for (let i = 0; i < 9; i++) {
        const [row, column] = [Math.floor(i / 3), i % 3];
        expect(TILED[id][row]![column]).toBe(tilePrimary(p, row, column)[0]!.toUpperCase());
      }
  });

  test('show each primary on a third of the image, so that the picture level stays', () => {
    const of = { width: 1280, height: 800 };
    for (const id of ['pattern-a', 'pattern-b', 'pattern-c'] as const) {
      const { rgb } = paint(of, testField(id).marks(of));
      for (const channel of [0, 1, 2]) {
        let lit = 0;
        for (let i = channel; i < rgb.length; i += 3) if (rgb[i] === 255) lit++;
        // 1280 and 800 are no multiples of 3: one row or column of a tile more or less.
        expect(Math.abs(lit / (of.width * of.height) - 1 / 3)).toBeLessThan(1 / 800);
      }
    }
  });
});

describe('signal levels', () => {
  test('are eight: 0, 5, 10, 15 and 85, 90, 95, 100 % (IT7.228, IEC 61947-1, from memory)', () => {
    expect(LEVELS).toEqual([
      [0, 5, 10, 15],
      [85, 90, 95, 100],
    ]);
    expect(LEVELS.flat().map(codeOf)).toEqual([0, 13, 26, 38, 217, 230, 242, 255]);
  });
  test('lie between 16 and 235 on a limited-range link (8-bit coding of ITU-R BT.709, from memory)', () => {
    expect([0, 255].map(limitedCode)).toEqual([16, 235]);
    // Half the signal: 16 + 219 · 128 ÷ 255 = 125.93.
    expect(limitedCode(128)).toBe(126);
  });
});

describe('focus and geometry', () => {
  test.each(SIZES)('has its edges on the outermost pixels at $width x $height', (of) => {
    const { rgb } = paint(of, testField('grid').marks(of));
    const at = (x: number, y: number) => [
      ...rgb.subarray((y * of.width + x) * 3, (y * of.width + x) * 3 + 3),
    ];
    for (let x = 0; x < of.width; x++)
      for (const y of [0, of.height - 1]) expect(at(x, y)).toEqual([255, 255, 255]);
    for (let y = 0; y < of.height; y++)
      for (const x of [0, of.width - 1]) expect(at(x, y)).toEqual([255, 255, 255]);
    // One pixel wide: next to the middle of the left edge, off the grid's lines, it is dark.
    expect(at(1, Math.round(of.height * 0.47))).toEqual([0, 0, 0]);
  });

  test.each(SIZES)('is symmetrical in its lines at $width x $height', (of) => {
    const { rgb } = paint(of, testField('grid').marks(of));
    // A row and a column that meet neither focus patches nor crosses.
    const [row, column] = [Math.round(of.height * 0.33), Math.round(of.width * 0.33)];
    const across = Array.from({ length: of.width }, (_, x) => rgb[(row * of.width + x) * 3]);
    const down = Array.from({ length: of.height }, (_, y) => rgb[(y * of.width + column) * 3]);
    expect([...across].reverse()).toEqual(across);
    expect([...down].reverse()).toEqual(down);
  });

  test('has cells as wide as high, a tenth of the height', () => {
    const of = { width: 1920, height: 1080 };
    const { rgb } = paint(of, testField('grid').marks(of));
    const lit = (pixels: (number | undefined)[]) => pixels.flatMap((value, i) => (value === 128 ? [i] : []));
    const x = lit(Array.from({ length: of.width }, (_, i) => rgb[(350 * of.width + i) * 3]));
    const y = lit(Array.from({ length: of.height }, (_, i) => rgb[(i * of.width + 640) * 3]));
    expect(x[1]! - x[0]!).toBe(108);
    expect(y[1]! - y[0]!).toBe(108);
  });

  test('has lines of one pixel at each of the nine points, upright and level', () => {
    const of = { width: 1280, height: 800 };
    const { rgb } = paint(of, testField('grid').marks(of));
    const at = (x: number, y: number) => rgb[(y * of.width + x) * 3];
    for (const u of [1 / 6, 1 / 2, 5 / 6])
      for (const v of [1 / 6, 1 / 2, 5 / 6]) {
        const [x, y] = [Math.round(u * of.width), Math.round(v * of.height)];
        for (let i = 2; i < 20; i += 2) {
          expect([at(x - i, y), at(x - i + 1, y)]).toEqual([255, 0]);
          expect([at(x + 3, y + i), at(x + 3, y + i + 1)]).toEqual([255, 0]);
        }
      }
  });
});

test('the checkerboard’s points are the centres of its tiles', () => {
  expect(BOARD_POINTS).toHaveLength(16);
  expect(BOARD_POINTS[0]).toMatchObject({ number: 1, name: 'row 1 column 1', u: 0.125, v: 0.125 });
  expect(BOARD_POINTS[7]).toMatchObject({ number: 8, name: 'row 2 column 4', u: 0.875, v: 0.375 });
});
