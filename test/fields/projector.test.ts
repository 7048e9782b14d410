import { describe, expect, test } from 'vitest';
import { type FieldId, testField } from '../../src/fields/field';
import { colourLightOutput, colourToWhite, lightOutput } from '../../src/photometry/lightoutput';
import type { Outcome } from '../../src/photometry/outcome';
import { NINE_POINTS } from '../../src/photometry/points';
import { PRIMARIES, type Primary, sortTiles } from '../../src/photometry/tiles';
import { createProjector, type Projector } from './projector';
import { paint } from './raster';

/*
 * The true values are put into the simulation, so they are known. Red, green and blue in the proportion of about
 * 1 : 4 : 0.8, invented; the fall-off is a parabola that leaves 82 % at the corner points of the nine.
 */
const TRUE = { red: 150, green: 600, blue: 120 } as const;
const falloff = (u: number, v: number) => 1 - 0.81 * ((u - 0.5) ** 2 + (v - 0.5) ** 2);
const SHARES = NINE_POINTS.map(({ u, v }) => falloff(u, v));
const AREA = 1.92;
const SIZE = { width: 1280, height: 800 };

/** A projector shows a field, and the meter goes round the nine points. */
function read(projector: Projector, id: FieldId): number[] {
  const picture = paint(SIZE, testField(id).marks(SIZE));
  return NINE_POINTS.map(({ u, v }) => projector.lux(picture, u, v));
}

/** The three patterns read as they lie on the screen, then sorted by colour as a run sheet does. */
function tiled(projector: Projector): Record<Primary, number[]> {
  const patterns = (['pattern-a', 'pattern-b', 'pattern-c'] as const).map((id) => {
    const nine = read(projector, id);
    return [nine.slice(0, 3), nine.slice(3, 6), nine.slice(6)];
  });
  const of = (primary: Primary) => sortTiles(patterns, primary).flat();
  return { red: of('red'), green: of('green'), blue: of('blue') };
}

const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.problems[0]!.message);
  return outcome.value;
};
const lumens = (nine: readonly number[]) => value(lightOutput(nine, AREA));

function expectNine(readings: readonly number[], centre: number): void {
  expect(readings).toHaveLength(9);
  for (const [i, lux] of readings.entries()) expect(lux).toBeCloseTo(centre * SHARES[i]!, 9);
}

describe.each([
  ['primaries add up to white', 0],
  ['light is added to white only', 430],
])('a projector whose %s (%d lx added)', (_what, added) => {
  const projector = createProjector({ ...TRUE, added, falloff });
  const found = tiled(projector);

  test.each(PRIMARIES)('has its true %s in the tiled readings', (primary) => {
    expectNine(found[primary], TRUE[primary]);
  });

  test('has its true white in the white field', () => {
    expectNine(read(projector, 'white'), 150 + 600 + 120 + added);
  });

  test('has the ratio of colour to white that was put in', () => {
    const colour = colourLightOutput(lumens(found.red), lumens(found.green), lumens(found.blue));
    const ratio = value(colourToWhite(colour, lumens(read(projector, 'white'))));
    expect(ratio).toBeCloseTo(870 / (870 + added), 12);
  });

  test('shows the same in full fields as in tiles', () => {
    for (const primary of PRIMARIES) expectNine(read(projector, primary), TRUE[primary]);
  });
});

describe('a projector that boosts full fields by a quarter', () => {
  const projector = createProjector({ ...TRUE, added: 430, boost: 1.25, falloff });
  const found = tiled(projector);

  test.each(PRIMARIES)('gives itself away in %s: full field is 1.25 times the tiles', (primary) => {
    const full = read(projector, primary);
    expectNine(full, 1.25 * TRUE[primary]);
    expectNine(found[primary], TRUE[primary]);
    expect(lumens(full) / lumens(found[primary])).toBeCloseTo(1.25, 12);
  });

  test('has its true white all the same', () => {
    expectNine(read(projector, 'white'), 870 + 430);
  });

  test('would be credited with 1087.5 of 1300 by full fields, and is with 870 by tiles', () => {
    const white = lumens(read(projector, 'white'));
    const of = (fields: Record<Primary, number[]>) =>
      value(
        colourToWhite(
          colourLightOutput(lumens(fields.red), lumens(fields.green), lumens(fields.blue)),
          white,
        ),
      );
    const full = {
      red: read(projector, 'red'),
      green: read(projector, 'green'),
      blue: read(projector, 'blue'),
    };
    expect(of(full)).toBeCloseTo(1087.5 / 1300, 12);
    expect(of(found)).toBeCloseTo(870 / 1300, 12);
  });
});

test('black and the checkerboard are read from the same pictures', () => {
  const projector = createProjector({ ...TRUE, black: 0.5 });
  expect(read(projector, 'black')).toEqual(Array(9).fill(0.5));
  const board = paint(SIZE, testField('board').marks(SIZE));
  expect(projector.lux(board, 1 / 8, 1 / 8)).toBe(870.5);
  expect(projector.lux(board, 3 / 8, 1 / 8)).toBe(0.5);
});
