import { describe, expect, it } from 'vitest';
import { measuredShares, SIGNAL_STANDARDS, standardShares } from '../../src/photometry/colour';
import { checkerboardContrast, contrast } from '../../src/photometry/contrast';
import { drift } from '../../src/photometry/drift';
import { colourToWhite, fittedOutput, lightOutput } from '../../src/photometry/lightoutput';
import { luminance } from '../../src/photometry/luminance';
import type { Outcome } from '../../src/photometry/outcome';
import { NINE_POINTS } from '../../src/photometry/points';
import { goodOf, problemsOf } from './outcome';

/* What is refused says where, what was expected and what came, each by itself. The words are ours: regression. */
const dark = Array.from({ length: 9 }, () => 0);
const inverse = Array.from({ length: 16 }, (_, i) => ((Math.floor(i / 4) + i) % 2 === 0 ? 10 : 100));

it.each<readonly [code: string, where: string, said: RegExp, Outcome<unknown>]>([
  ['out-of-bounds', 'image area', /must be greater than 0 m²; it is 0\.$/, lightOutput(dark, 0)],
  ['out-of-bounds', 'image area', /must be greater than 0 m²; it is -1\.$/, fittedOutput(dark, -1)],
  ['out-of-bounds', 'white light output', /must be greater than 0 lm; it is 0\.$/, colourToWhite(800, 0)],
  ['negative', 'colour light output', /must not be negative; it is -1 lm\.$/, colourToWhite(-1, 800)],
  ['not-defined', 'first centre reading', /first centre reading is 0\.$/, drift(0, 800)],
  ['negative', 'last centre reading', /must not be negative; it is -1\.$/, drift(800, -1)],
  ['not-defined', 'white', /mean white illuminance is 0 lx\.$/, contrast(0, 0, 1)],
  ['ambient-exceeds', 'black', /measure ambient and black again\.$/, contrast(500, -1, 0.1)],
  ['not-defined', 'black', /give the step of the display/, contrast(500, 0, 0)],
  [
    'choice',
    'checkerboard',
    /is the top left tile really white\?$/,
    checkerboardContrast(inverse, 'white', 1),
  ],
  ['not-defined', 'colour balance', /they are -1, 900 and 90\.$/, measuredShares(-1, 900, 90)],
  [
    'choice',
    'signal standard',
    /must be one of BT\.709, BT\.2020, .*; it is "NTSC"\.$/,
    standardShares('NTSC'),
  ],
])('%s, %s', (code, where, said, outcome) => {
  expect(problemsOf(outcome)).toMatchObject([{ code, where, message: expect.stringMatching(said) }]);
});

it('all signal standards are named to whoever chose another', () => {
  for (const standard of SIGNAL_STANDARDS)
    expect(problemsOf(standardShares('other'))[0]!.message).toContain(standard);
});

describe('an estimate over the whole image', () => {
  // By hand: the integral of u^i over 0 to 1 is 1 ÷ (i + 1). Maclaurin's rule is exact to the third degree each way.
  it.each([0, 1, 2, 3].flatMap((i) => [0, 1, 2, 3].map((j) => [i, j] as const)))(
    'is the integral of u^%i v^%i',
    (i, j) => {
      const nine = NINE_POINTS.map(({ u, v }) => 1000 * u ** i * v ** j);
      expect(goodOf(fittedOutput(nine, 2.5))).toBeCloseTo(2500 / (i + 1) / (j + 1), 9);
    },
  );
});

it('a luminance without a unit is in cd/m²: of a matt screen of gain 1, illuminance ÷ π (CIE e-ILV 17-24-063)', () => {
  expect(luminance(Math.PI * 100, 1)).toBeCloseTo(100, 12);
});
