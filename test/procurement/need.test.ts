import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { luminance } from '../../src/photometry/luminance';
import { illuminanceForContrast, illuminanceForLuminance } from '../../src/procurement/need/illuminance';
import type { NeedInput } from '../../src/procurement/need/input';
import { largestOf, need } from '../../src/procurement/need/need';
import { contrastReached } from '../../src/procurement/need/reached';
import { taskContrast, VIEWING_TASKS } from '../../src/procurement/need/tasks';
import { whatIf } from '../../src/procurement/need/whatif';
import { expectPrinted } from '../photometry/closeto';
import { goodOf, problemsOf } from '../photometry/outcome';
import { CINEMA_WHITE, TASK_CONTRASTS } from '../references/need';

/** A reading room: 2 m², 50 lx on the screen, basic decision making, C₀ 150, 80 cd/m². */
const ROOM: NeedInput = { area: 2, gain: 1, ambient: 50, contrast: 15, ownContrast: 150, luminance: 80 };

describe('viewing tasks', () => {
  it.each(TASK_CONTRASTS)('$task asks for $printed to 1 ($source)', ({ task, printed }) => {
    expect(taskContrast(task).contrast).toBe(Number(printed));
  });
  it('are all held', () => {
    expect([...VIEWING_TASKS].sort()).toEqual(TASK_CONTRASTS.map(({ task }) => task).sort());
  });
  it('say where a number is from memory', () => {
    for (const { task, source } of TASK_CONTRASTS)
      expect(taskContrast(task).source.includes('from memory')).toBe(source.includes('from memory'));
  });
});

describe('light output to ask for, by hand', () => {
  it('contrast governs: 14 × 50 lx ÷ (1 − 15 ÷ 150) = 777.78 lx; π × 80 = 251.33 lx', () => {
    const found = goodOf(need(ROOM));
    expectPrinted(found.forContrast!, '777.7778');
    expectPrinted(found.forLuminance!, '251.3274');
    expect(found.governs).toBe('contrast');
    expectPrinted(found.white, '1555.5556'); // × 2 m²
    expectPrinted(found.colour, '1555.5556');
  });

  it('luminance governs where it asks for more: π × 300 ÷ 1.2 = 785.398 lx', () => {
    const found = goodOf(need({ ...ROOM, luminance: 300, gain: 1.2 }));
    expectPrinted(found.forLuminance!, '785.398');
    expect(found.governs).toBe('luminance');
    expectPrinted(found.white, '1570.796');
  });

  it('reserves divide: 1555.56 ÷ (0.7 × 0.8) lm, and the colour part multiplies', () => {
    const found = goodOf(need({ ...ROOM, ageing: 0.7, mode: 0.8, colourPart: 0.9 }));
    expectPrinted(found.white, '2777.7778');
    expectPrinted(found.colour, '2500.0000');
  });

  it('tells the screen at the end and when new', () => {
    const { atEnd, whenNew } = goodOf(need({ ...ROOM, ageing: 0.7, mode: 0.8 }));
    expectPrinted(atEnd.contrast!, '15.0000000000');
    expectPrinted(atEnd.luminance, '247.5744'); // 777.78 ÷ π
    expectPrinted(whenNew.illuminance, '1388.8889'); // 777.78 ÷ 0.56
    expectPrinted(whenNew.contrast!, '24.281250000'); // (12 500 ÷ 9 + 50) ÷ (12 500 ÷ 1350 + 50) = 12 950 × 150 ÷ 80 000
  });

  it('cinema white needs 48π lx on gain 1, which are 14.009 fc (SMPTE ST 431-1:2006, as retold)', () => {
    const lux = illuminanceForLuminance(CINEMA_WHITE.luminance, 1);
    expectPrinted(lux * 0.3048 ** 2, String(CINEMA_WHITE.footlamberts));
    expectPrinted(luminance(lux, 1, 'fL'), String(CINEMA_WHITE.footlamberts));
  });

  it('one wish is enough, and of the other nothing is said', () => {
    const byContrast = goodOf(need({ area: 2, gain: 1, ambient: 50, contrast: 15 }));
    expect(byContrast).toMatchObject({ governs: 'contrast', forContrast: 700, white: 1400 }); // 14 × 50 × 2
    expect(byContrast).not.toHaveProperty('forLuminance');
    const byLuminance = goodOf(need({ area: 2, gain: 1, ambient: 0, luminance: 80 }));
    expect(byLuminance.governs).toBe('luminance');
    expectPrinted(byLuminance.white, '502.6548'); // π × 80 × 2
    expect(byLuminance).not.toHaveProperty('forContrast');
  });

  it('two wishes may ask for the same: 1 × π lx for a contrast of 2, π × 1 cd/m²', () => {
    const both = need({ area: 2, gain: 1, ambient: Math.PI, contrast: 2, luminance: 1 });
    expect(goodOf(both)).toMatchObject({ governs: 'both alike', white: 2 * Math.PI });
  });

  it('of several, white and colour are each the largest', () => {
    const [small, white, colour] = [
      { ...ROOM, area: 1 },
      { ...ROOM, colourPart: 0.5 },
      { ...ROOM, area: 1.5 },
    ].map((room) => goodOf(need(room)));
    // 777.78 lx × 2 m² of white, × 1.5 m² of colour.
    const largest = largestOf([small!, white!, colour!])!;
    expectPrinted(largest.white, '1555.5556');
    expectPrinted(largest.colour, '1166.6667');
    expect(largestOf([])).toBeUndefined();
  });
});

describe('what cannot be met or is not stated', () => {
  it.each([
    ['contrast at C₀', { contrast: 150 }, /cannot be reached, however bright.*is 150/],
    ['contrast above C₀', { contrast: 200 }, /cannot be reached/],
    [
      'nothing wanted',
      { contrast: undefined, luminance: undefined },
      /wanted contrast, a wanted luminance or both/,
    ],
    ['contrast only, in the dark', { ambient: 0, luminance: undefined }, /full darkness/],
    ['no area', { area: 0 }, /image area must be greater than 0/],
    ['contrast of 1', { contrast: 1 }, /greater than 1/],
    ['negative ambient', { ambient: -1 }, /must not be negative/],
    ['reserve of 0', { ageing: 0 }, /ageing reserve must be more than 0 and at most 1/],
    ['reserve above 1', { mode: 1.2 }, /mode reserve must be more than 0 and at most 1/],
    ['not a number', { gain: Number.NaN }, /screen gain must be a finite number/],
  ] as const)('%s', (_, change, message) => {
    const [problem] = problemsOf(need({ ...ROOM, ...change }));
    expect(problem!.message).toMatch(message);
  });

  it('tells every problem at once', () => {
    expect(problemsOf(need({ ...ROOM, area: -1, gain: 0, ambient: Number.NaN }))).toHaveLength(3);
  });

  it('contrast without any black light is not defined', () => {
    expect(problemsOf(contrastReached(1000, 2, 0))[0]!.code).toBe('not-defined');
    expect(goodOf(contrastReached(1000, 2, 0, 400))).toBe(400);
    expect(goodOf(contrastReached(0, 2, 50))).toBe(1);
    // Its own black, 500 ÷ 10 lx, may be as much as the ambient light: 550 ÷ 100.
    expect(goodOf(contrastReached(1000, 2, 50, 10))).toBe(5.5);
  });
});

describe('need and reached contrast undo each other', () => {
  const room = fc.record({
    area: fc.double({ min: 0.1, max: 50, noNaN: true }),
    gain: fc.double({ min: 0.3, max: 4, noNaN: true }),
    ambient: fc.double({ min: 0.1, max: 2000, noNaN: true }),
    contrast: fc.double({ min: 1.01, max: 100, noNaN: true }),
    ownContrast: fc.double({ min: 120, max: 1e6, noNaN: true }),
  });

  it('the light asked for reaches the contrast, 1 % less does not', () => {
    fc.assert(
      fc.property(room, (input) => {
        const { white } = goodOf(need(input));
        const reached = (lumens: number) =>
          goodOf(contrastReached(lumens, input.area, input.ambient, input.ownContrast));
        expect(reached(white) / input.contrast).toBeCloseTo(1, 9);
        expect(reached(white * 0.99)).toBeLessThan(input.contrast);
      }),
    );
  });

  it('more ambient light, more contrast or a smaller C₀ never asks for less', () => {
    fc.assert(
      fc.property(room, fc.double({ min: 1, max: 1.15, noNaN: true }), (input, more) => {
        const base = goodOf(illuminanceForContrast(input.contrast, input.ambient, input.ownContrast));
        const others = [
          illuminanceForContrast(input.contrast, input.ambient * more, input.ownContrast),
          illuminanceForContrast(input.contrast * more, input.ambient, input.ownContrast),
          illuminanceForContrast(input.contrast, input.ambient, Math.max(input.ownContrast / more, 101)),
        ];
        for (const other of others) expect(goodOf(other)).toBeGreaterThanOrEqual(base * (1 - 1e-12));
      }),
    );
  });

  it('reached contrast stays below C₀ and rises with the light', () => {
    fc.assert(
      fc.property(room, fc.double({ min: 1, max: 1e5, noNaN: true }), (input, lumens) => {
        const { area, ambient, ownContrast } = input;
        const one = goodOf(contrastReached(lumens, area, ambient, ownContrast));
        const two = goodOf(contrastReached(lumens * 2, area, ambient, ownContrast));
        expect(one).toBeLessThan(ownContrast);
        expect(two).toBeGreaterThanOrEqual(one);
      }),
    );
  });
});

describe('what if', () => {
  it('each cell is the need of that room: 14 × ambient × area ÷ (1 − 15 ÷ 150)', () => {
    const cells = whatIf({ ...ROOM, luminance: undefined }, [50, 100], [2, 4]).map((row) => row.map(goodOf));
    const printed = [
      ['1555.5556', '3111.1111'],
      ['3111.1111', '6222.2222'],
    ];
    for (const [r, row] of cells.entries())
      for (const [c, cell] of row.entries()) expectPrinted(cell, printed[r]![c]!);
  });
  it('a cell that cannot be met says why, the others stand', () => {
    const [fine, wrong] = whatIf(ROOM, [50], [2, 0])[0]!;
    expect(goodOf(fine!)).toBeGreaterThan(0);
    expect(problemsOf(wrong!)[0]!.where).toBe('image area');
  });
});
