import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ASPECTS, imageSize, parseAspect, quadrilateral } from '../../src/photometry/image';
import { chain } from '../../src/photometry/outcome';
import { METRES } from '../../src/photometry/units';
import { FOUR_SIDES, IMAGES } from '../references/photometry';
import { expectPrinted, expectRow } from './closeto';
import { goodOf, problemsOf } from './outcome';

const named = ([top, right, bottom, left, falling, rising]: readonly [
  number,
  number,
  number,
  number,
  number,
  number,
]) => ({ top, right, bottom, left, falling, rising });

describe('image size from one length and the aspect', () => {
  it.each(IMAGES)('$name ($source)', ({ known, length, unit, aspect, width, height, area, source }) => {
    const size = goodOf(
      chain(parseAspect(aspect), (ratio) => imageSize(known, length * METRES[unit], ratio)),
    );
    expectPrinted(size.width, width, source);
    expectPrinted(size.height, height, source);
    expectPrinted(size.area, area, source);
    expect(size.diagonal).toBeCloseTo(Math.sqrt(size.width ** 2 + size.height ** 2), 12);
  });

  it('any of the three lengths leads to the same image', () => {
    const length = fc.double({ min: 0.1, max: 50, noNaN: true });
    fc.assert(
      fc.property(length, fc.constantFrom(...Object.values(ASPECTS)), (width, aspect) => {
        const size = goodOf(imageSize('width', width, aspect));
        for (const known of ['height', 'diagonal'] as const) {
          const again = goodOf(imageSize(known, size[known], aspect));
          expect(again.area / size.area).toBeCloseTo(1, 12);
        }
      }),
    );
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a length of %s', (length) => {
    expect(problemsOf(imageSize('width', length, { across: 16, down: 9 }))[0]).toMatchObject({
      code: 'out-of-bounds',
      message: `Image width must be greater than 0; it is ${length}.`,
    });
  });
});

describe('aspect', () => {
  it.each([
    ['16:9', 16, 9],
    [' 4 : 3 ', 4, 3],
    ['21:9', 21, 9],
    ['2.39:1', 2.39, 1],
    ['1920x1080', 1920, 1080],
    ['1920 × 1200', 1920, 1200],
    ['17:9', 4096, 2160],
    [' 17:9 ', 4096, 2160],
  ])('"%s" is %d to %d', (text, across, down) => {
    expect(goodOf(parseAspect(text))).toEqual({ across, down });
  });

  it.each(['', 'wide', '16', '16:0', '0:9', '-4:3', '16:9:1', '1,78:1', 'toString'])(
    'refuses "%s"',
    (text) => {
      const [problem] = problemsOf(parseAspect(text));
      expect(problem!.code).toBe('choice');
      expect(problem!.message).toContain(`it is "${text}"`);
      for (const aspect of Object.keys(ASPECTS)) expect(problem!.message).toContain(aspect);
    },
  );
});

describe('area of an image that is not square', () => {
  it.each(FOUR_SIDES)('$name ($source)', (row) => {
    const result = goodOf(quadrilateral(named(row.sides)));
    expectRow(result.area, row);
    expectPrinted(result.worstSideDifference, row.difference, row.name);
  });

  /** Corners pushed about at random: the area by the surveyor's (shoelace) formula is another road to the same figure. */
  it('agrees with the shoelace formula for corners pushed out of square', () => {
    const push = fc.double({ min: -0.2, max: 0.2, noNaN: true });
    fc.assert(
      fc.property(fc.array(push, { minLength: 8, maxLength: 8 }), (d) => {
        const [tl, tr, br, bl] = [
          [0, 0],
          [1.6, 0],
          [1.6, 0.9],
          [0, 0.9],
        ].map(([x, y], i) => [x! + d[2 * i]!, y! + d[2 * i + 1]!] as const) as [P, P, P, P];
        const side = (a: P, b: P) => Math.hypot(a[0] - b[0], a[1] - b[1]);
        const cross = (a: P, b: P) => a[0] * b[1] - b[0] * a[1];
        const shoelace = Math.abs(cross(tl, tr) + cross(tr, br) + cross(br, bl) + cross(bl, tl)) / 2;
        const result = quadrilateral({
          top: side(tl, tr),
          right: side(tr, br),
          bottom: side(br, bl),
          left: side(bl, tl),
          falling: side(tl, br),
          rising: side(tr, bl),
        });
        expect(goodOf(result).area / shoelace).toBeCloseTo(1, 9);
      }),
    );
  });
  type P = readonly [number, number];

  it.each([
    ['a diagonal longer than two sides', [1.6, 1.2, 1.6, 1.2, 3, 2]],
    ['a diagonal shorter than the difference of two sides', [1.6, 1.2, 1.6, 1.2, 0.3, 2]],
    ['a side that does not close', [16, 1.2, 1.6, 1.2, 2, 2]],
  ] as const)('refuses %s and names what to measure again', (_, sides) => {
    const [problem] = problemsOf(quadrilateral(named(sides)));
    expect(problem!.code).toBe('impossible-shape');
    expect(problem!.message).toContain('measure the four sides in order round the image and both diagonals');
  });

  // Six lengths of a plane figure obey one condition (two triangles over a diagonal give the other diagonal); by hand:
  // a square of 1.2 × 1.6 has diagonals of 2; one of 1.5 is 0.5 m off, sides out of order even more.
  it.each([
    [
      'a diagonal of 1.5 in place of 2',
      [1.6, 1.2, 1.6, 1.2, 2, 1.5],
      /another diagonal of 2, not of 1.5: they miss each other by 500 mm/,
    ],
    ['sides out of order', [1.6, 1.6, 1.2, 1.2, 2, 2], /miss each other by \d+ mm/],
    [
      'a reading error of 5 cm',
      [1.6, 1.2, 1.6, 1.2, 2, 2.05],
      /miss each other by 50 mm \(at most 1 % of the longest side/,
    ],
  ] as const)('refuses %s and says by how much it misses', (_, sides, words) => {
    const [problem] = problemsOf(quadrilateral(named(sides)));
    expect(problem!.code).toBe('impossible-shape');
    expect(problem!.message).toMatch(words);
  });
  it('takes what a tape reads on soft edges: a centimetre in two metres', () => {
    expect(quadrilateral(named([1.6, 1.2, 1.6, 1.2, 2, 2.01])).ok).toBe(true);
    expect(quadrilateral(named([1.605, 1.2, 1.6, 1.197, 2, 1.995])).ok).toBe(true);
  });

  /** The same figure with the next corner called top left: its sides move on by one, its diagonals change places. */
  const turned = ([a, b, c, d, p, q]: readonly number[], times: number): readonly number[] =>
    times === 0 ? [a!, b!, c!, d!, p!, q!] : turned([b!, c!, d!, a!, q!, p!], times - 1);
  it.each([
    // Three corners in a line, by Pythagoras: (0, 0), (1, 0), (2, 0), (1, −1) and (0, 0), (2, 0), (1, 0), (½, −1).
    ['on the diagonal', [1, 1, Math.SQRT2, Math.SQRT2, 2, 1]],
    ['on the diagonal drawn on', [2, 1, Math.sqrt(1.25), Math.sqrt(1.25), 1, Math.sqrt(3.25)]],
  ] as const)('a corner that lies %s is none, whichever corner it is', (_, sides) => {
    for (const times of [0, 1, 2, 3]) {
      const [problem] = problemsOf(quadrilateral(named(turned(sides, times) as typeof sides)));
      expect(problem!.message).toMatch(/^No image has sides/);
    }
  });
  it.each([
    // Every triangle closes, and ¼·√(4·4²·4² − (5² + 5² − 3² − 3²)²) is 0: a parallelogram has p² + q² = 2(a² + b²).
    ['nothing', [3, 5, 3, 5, 4, 4]],
    ['the root of something negative', [3, 5, 3, 5, 3.9, 4]],
  ] as const)('refuses what would have an area of %s', (_, sides) => {
    expect(problemsOf(quadrilateral(named(sides)))[0]!.message).toMatch(/^No image has sides 3, 5, 3, 5 and/);
  });

  it.each([
    // Four right-angled triangles of 60, 80, 100 make a rhombus with diagonals of 120 and 160: 159 and 161 miss by 1.
    ['shorter', 159, 158.99],
    ['longer', 161, 161.01],
  ])('takes a diagonal %s by just one per cent of the side, and no more', (_, taken, refused) => {
    const rhombus = (rising: number) => quadrilateral(named([100, 100, 100, 100, 120, rising]));
    expect(rhombus(taken).ok).toBe(true);
    expect(rhombus(refused).ok).toBe(false);
  });
  it('it is the longest side that counts: 2.015 for 2 is more than 1 % of 1.2, less than 1 % of 1.6', () => {
    expect(quadrilateral(named([1.6, 1.2, 1.6, 1.2, 2, 2.015])).ok).toBe(true);
    expect(quadrilateral(named([1.2, 1.6, 1.2, 1.6, 2, 2.015])).ok).toBe(true);
  });

  it('names the length that is not one', () => {
    expect(problemsOf(quadrilateral(named([1.6, 0, 1.6, 1.2, 2, 2])))[0]!.message).toBe(
      'Side or diagonal "right" must be greater than 0; it is 0.',
    );
  });
});
