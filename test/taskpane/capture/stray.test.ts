// @vitest-environment node
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  linear,
  STRIP,
  STRIP_LUMINANCE,
  strayLight,
  strayWords,
  stripCorner,
} from '../../../taskpane/capture/stray';

describe('what the strip on a mirrored screen costs', () => {
  it('grey 140 is 26.2 % of white’s light', () => {
    // IEC 61966-2-1 (from memory): ((140 ÷ 255 + 0.055) ÷ 1.055)^2.4 = 0.572531^2.4 = 0.26225.
    expect(linear(140)).toBeCloseTo(0.26225, 5);
    expect(linear(0)).toBe(0);
    expect(linear(255)).toBe(1);
    // The straight piece near black: 10 ÷ 255 ÷ 12.92 = 0.0030353.
    expect(linear(10)).toBeCloseTo(0.0030353, 7);
  });

  it('is its share of the area times its share of white’s luminance', () => {
    // A fifth of it letters of grey 140 on black: 0.2 × 0.26225 = 0.05245 of white.
    expect(STRIP_LUMINANCE).toBeCloseTo(0.05245, 5);
    // 460 × 150 of 1920 × 1080 pixels: 69 000 ÷ 2 073 600 = 0.033275; times 0.05245 = 0.0017453.
    const stray = strayLight({ width: 460, height: 150 }, { width: 1920, height: 1080 });
    expect(stray.area).toBeCloseTo(0.033275, 6);
    expect(stray.ofWhite).toBeCloseTo(0.0017453, 6);
    expect(strayWords(stray)).toBe(
      'This strip adds at most 0.17\u00a0% of a white picture’s light (3.3\u00a0% of its area × 5.2\u00a0% of its luminance) and covers 3.3\u00a0% of the field. It goes while you read.',
    );
  });

  it('of no picture is nothing', () => {
    expect(strayLight({ width: 460, height: 150 }, { width: 0, height: 0 }).ofWhite).toBe(0);
  });

  it('counts with the colours that the style sheet gives the strip', () => {
    const css = readFileSync(
      `${import.meta.dirname}/../../../taskpane/capture/ui/capture.module.css`,
      'utf8',
    );
    const block = /\.capture\.mirrored \{([^}]*)\}/.exec(css)![1]!;
    const colours = [...block.matchAll(/--([\w-]+): #(\w{2})(\w{2})(\w{2});/g)].map(([, name, ...rgb]) => ({
      name,
      brightest: Math.max(...rgb.map((code) => Number.parseInt(code, 16))),
    }));
    expect(colours.find(({ name }) => name === 'ground')).toEqual({
      name: 'ground',
      brightest: STRIP.ground,
    });
    expect(colours.find(({ name }) => name === 'ink')).toEqual({ name: 'ink', brightest: STRIP.ink });
    for (const { brightest } of colours) expect(brightest).toBeLessThanOrEqual(STRIP.ink);
  });
});

it('the strip keeps away from the sensor', () => {
  expect(stripCorner({ u: 1 / 6, v: 1 / 6 })).toBe('bottom right');
  expect(stripCorner({ u: 5 / 6, v: 1 / 6 })).toBe('bottom left');
  expect(stripCorner({ u: 1 / 6, v: 5 / 6 })).toBe('top right');
  expect(stripCorner({ u: 5 / 6, v: 5 / 6 })).toBe('top left');
  expect(stripCorner({ u: 1 / 2, v: 1 / 2 })).toBe('bottom right');
});
