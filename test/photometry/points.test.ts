import { describe, expect, it } from 'vitest';
import { CENTRE, measuringPoints, NINE_POINTS } from '../../src/photometry/points';
import { PRIMARIES, patternShowing, sortTiles, tilePrimary } from '../../src/photometry/tiles';
import { CORNER_FRACTIONS, NINE_FRACTIONS } from '../references/photometry';
import { expectPrinted } from './closeto';

describe('measuring points', () => {
  it(`nine: ${NINE_FRACTIONS.source}`, () => {
    const nine = measuringPoints(9);
    expect(nine.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    nine.forEach(({ u, v }, i) => {
      expectPrinted(u, NINE_FRACTIONS.printed[i % 3]!);
      expectPrinted(v, NINE_FRACTIONS.printed[Math.floor(i / 3)]!);
    });
  });

  it(`thirteen: ${CORNER_FRACTIONS.source}`, () => {
    const corners = measuringPoints(13).slice(9);
    const [near, far] = CORNER_FRACTIONS.printed as [string, string];
    const expected = [
      [near, near],
      [far, near],
      [near, far],
      [far, far],
    ] as const;
    expect(corners.map(({ number }) => number)).toEqual([10, 11, 12, 13]);
    corners.forEach(({ u, v }, i) => {
      expectPrinted(u, expected[i]![0]);
      expectPrinted(v, expected[i]![1]);
    });
  });

  it('lie as seen facing the screen, top left first, the centre fifth', () => {
    expect(NINE_POINTS.map(({ name }) => name)).toEqual([
      'top left',
      'top centre',
      'top right',
      'middle left',
      'middle centre',
      'middle right',
      'bottom left',
      'bottom centre',
      'bottom right',
    ]);
    expect(NINE_POINTS[CENTRE]).toMatchObject({ number: 5, u: 0.5, v: 0.5 });
  });
});

describe('tiled patterns', () => {
  const tiles = [0, 1, 2].flatMap((row) => [0, 1, 2].map((column) => ({ row, column })));

  it('show each primary once at every tile over the three patterns', () => {
    for (const { row, column } of tiles) {
      const shown = [0, 1, 2].map((pattern) => tilePrimary(pattern, row, column));
      expect(new Set(shown)).toEqual(new Set(PRIMARIES));
    }
  });

  it('show each primary on three tiles of every pattern: the picture level stays constant', () => {
    for (const pattern of [0, 1, 2]) {
      for (const primary of PRIMARIES) {
        const showing = tiles.filter(({ row, column }) => tilePrimary(pattern, row, column) === primary);
        expect(showing).toHaveLength(3);
      }
    }
  });

  it('are known backwards: the pattern that shows a primary at a tile shows it', () => {
    for (const primary of PRIMARIES)
      for (const { row, column } of tiles)
        expect(tilePrimary(patternShowing(primary, row, column), row, column)).toBe(primary);
  });

  it('are sorted by colour: pattern A starts red at the top left, and red moves with r + c + p', () => {
    const patterns = ['A', 'B', 'C'].map((p) => [0, 1, 2].map((r) => [0, 1, 2].map((c) => `${p}${r}${c}`)));
    // Worked by hand from (r + c + p) mod 3 = 0 (red), 1 (green), 2 (blue).
    expect(sortTiles(patterns, 'red')).toEqual([
      ['A00', 'C01', 'B02'],
      ['C10', 'B11', 'A12'],
      ['B20', 'A21', 'C22'],
    ]);
    expect(sortTiles(patterns, 'green')).toEqual([
      ['B00', 'A01', 'C02'],
      ['A10', 'C11', 'B12'],
      ['C20', 'B21', 'A22'],
    ]);
    expect(sortTiles(patterns, 'blue')).toEqual([
      ['C00', 'B01', 'A02'],
      ['B10', 'A11', 'C12'],
      ['A20', 'C21', 'B22'],
    ]);
  });
});
