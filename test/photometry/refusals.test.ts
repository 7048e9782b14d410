import { describe, expect, it } from 'vitest';
import { measuredShares, SIGNAL_STANDARDS, standardShares } from '../../src/photometry/colour';
import { checkerboardContrast, contrast } from '../../src/photometry/contrast';
import { drift } from '../../src/photometry/drift';
import { imageSize, parseAspect, quadrilateral, sizeProblems } from '../../src/photometry/image';
import { colourToWhite, fittedOutput, lightOutput } from '../../src/photometry/lightoutput';
import { luminance } from '../../src/photometry/luminance';
import { bad, type Outcome } from '../../src/photometry/outcome';
import { NINE_POINTS } from '../../src/photometry/points';
import { goodOf, problemsOf } from './outcome';

/* What is refused says where, what was expected and what came, each by itself. The words are ours: regression. */
type Refused = readonly [code: string, where: string, said: RegExp, () => Outcome<unknown>];
const refuses = (code: string, where: string, said: RegExp, outcome: () => Outcome<unknown>) => {
  expect(problemsOf(outcome())).toMatchObject([{ code, where, message: expect.stringMatching(said) }]);
};

const dark = Array.from({ length: 9 }, () => 0);
const inverse = Array.from({ length: 16 }, (_, i) => ((Math.floor(i / 4) + i) % 2 === 0 ? 10 : 100));
const RECTANGLE = { top: 1.6, right: 1.2, bottom: 1.6, left: 1.2, falling: 2, rising: 2 };
const foursided = (change: Partial<typeof RECTANGLE>) => quadrilateral({ ...RECTANGLE, ...change });

it.each<Refused>([
  ['out-of-bounds', 'image area', /must be greater than 0 m²; it is 0\.$/, () => lightOutput(dark, 0)],
  ['out-of-bounds', 'image area', /must be greater than 0 m²; it is -1\.$/, () => fittedOutput(dark, -1)],
  [
    'out-of-bounds',
    'white light output',
    /must be greater than 0 lm; it is 0\.$/,
    () => colourToWhite(800, 0),
  ],
  ['negative', 'colour light output', /must not be negative; it is -1 lm\.$/, () => colourToWhite(-1, 800)],
  ['not-defined', 'first centre reading', /first centre reading is 0\.$/, () => drift(0, 800)],
  ['negative', 'last centre reading', /must not be negative; it is -1\.$/, () => drift(800, -1)],
  ['not-defined', 'white', /mean white illuminance is 0 lx\.$/, () => contrast(0, 0, 1)],
  ['ambient-exceeds', 'black', /measure ambient and black again\.$/, () => contrast(500, -1, 0.1)],
  ['not-defined', 'black', /give the step of the display/, () => contrast(500, 0, 0)],
  [
    'choice',
    'checkerboard',
    /is the top left tile really white\?$/,
    () => checkerboardContrast(inverse, 'white', 1),
  ],
  ['not-defined', 'colour balance', /they are -1, 900 and 90\.$/, () => measuredShares(-1, 900, 90)],
  [
    'choice',
    'signal standard',
    /must be one of BT\.709, BT\.2020, .*; it is "NTSC"\.$/,
    () => standardShares('NTSC'),
  ],
])('%s, %s', refuses);

describe('an image', () => {
  it.each<Refused>([
    [
      'out-of-bounds',
      'height',
      /^Image height must be greater than 0; it is 0\.$/,
      () => imageSize('height', 0, { across: 16, down: 9 }),
    ],
    [
      'choice',
      'aspect',
      /^Aspect must be one of 16:10, 16:9, 4:3, 17:9, two .*; it is "wide"\.$/,
      () => parseAspect('wide'),
    ],
    // 16:09 as a part of a day.
    [
      'choice',
      'aspect',
      /took 16:9 for a time of day\. Type '16:9 with the apostrophe in front, or 16x9\.$/,
      () => parseAspect(String(969 / 1440)),
    ],
    [
      'out-of-bounds',
      'aspect',
      /^No image is more than 20 times as wide as high.*; the aspect is "169:1"\.$/,
      () => parseAspect('169:1'),
    ],
    [
      'out-of-bounds',
      'width',
      /from 0\.1 m to 60 m; it is 160 m\. Check the unit\.$/,
      () => bad(...sizeProblems({ width: 160 })),
    ],
    [
      'out-of-bounds',
      'left',
      /^Side or diagonal "left" must be greater than 0; it is -1\.$/,
      () => foursided({ left: -1 }),
    ],
    [
      'impossible-shape',
      'sides',
      /^No image has sides 1\.6, 1\.2, 1\.6, 1\.2 and diagonals 3, 2: measure/,
      () => foursided({ falling: 3 }),
    ],
    [
      'impossible-shape',
      'sides',
      /another diagonal of 2, not of 2\.1: they miss each other by 100 mm/,
      () => foursided({ rising: 2.1 }),
    ],
  ])('%s, %s: %s', refuses);
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
