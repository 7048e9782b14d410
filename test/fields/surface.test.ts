import { describe, expect, test } from 'vitest';
import { findingsOf, isCovering, isScaled, type Surface, zoomOf } from '../../src/fields/surface';

const box = (width: number, height: number) => ({ width, height });

/** A full-screen window on a screen of 1920 × 1080 at 100 %: as it should be. */
const RIGHT: Surface = {
  drawn: box(1920, 1080),
  isCounted: true,
  dpr: 1,
  inner: box(1920, 1080),
  outer: box(1920, 1080),
  screen: box(1920, 1080),
  isFullScreen: true,
  pinch: 1,
  isVisible: true,
  isWideGamut: false,
  isHighDynamicRange: false,
  isKeptAwake: true,
};
const codes = (changes: Partial<Surface>) => findingsOf({ ...RIGHT, ...changes }).map(({ code }) => code);

/*
 * What browsers report: Chromium gives window and screen in unzoomed units and the page in zoomed ones, Firefox
 * gives all three in zoomed ones (from memory; the arithmetic follows).
 */
describe('nothing is wrong', () => {
  test.each<[string, Partial<Surface>]>([
    ['at 100 %', {}],
    [
      'with two device pixels a CSS pixel',
      { dpr: 2, inner: box(960, 540), outer: box(960, 540), screen: box(960, 540) },
    ],
    ['where the browser does not tell the window', { outer: box(0, 0) }],
    ['where lengths were rounded to whole CSS pixels', { screen: box(1921, 1080) }],
  ])('%s', (_when, changes) => {
    expect(codes(changes)).toEqual([]);
    expect(isCovering({ ...RIGHT, ...changes })).toBe(true);
    expect(isScaled({ ...RIGHT, ...changes })).toBe(false);
  });
});

describe('it is said', () => {
  const windowed = { isFullScreen: false, inner: box(1280, 590), outer: box(1296, 720) };
  test.each<[string, Partial<Surface>, string[]]>([
    ['that the window is not full screen', windowed, ['not-full-screen']],
    [
      'that it is maximised but not full screen',
      { isFullScreen: false, inner: box(1920, 950) },
      ['not-full-screen'],
    ],
    ['that developer tools take a side', { inner: box(1500, 1080) }, ['not-covering']],
    [
      'that the full screen is not the whole screen',
      { outer: box(1280, 800), inner: box(1280, 800) },
      ['not-covering'],
    ],
    ['that Chromium zooms by 150 %', { dpr: 1.5, inner: box(1280, 720) }, ['zoomed']],
    ['that Chromium zooms by 200 %', { dpr: 2, inner: box(960, 540) }, ['zoomed']],
    ['that Chromium zooms by 50 %', { dpr: 0.5, inner: box(3840, 2160) }, ['zoomed']],
    [
      'that the system scales by 150 %, or Firefox zooms',
      { dpr: 1.5, inner: box(1280, 720), outer: box(1280, 720), screen: box(1280, 720) },
      ['fractional'],
    ],
    [
      'that edges may be blended where a fractional size was rounded',
      { dpr: 1.5, isCounted: false, inner: box(1280, 720), outer: box(1280, 720), screen: box(1280, 720) },
      ['fractional', 'rounded'],
    ],
    ['that a pinch enlarges', { pinch: 1.2 }, ['pinched']],
    ['that it is hidden', { isVisible: false }, ['hidden']],
    ['that colours are mixed for a wide gamut', { isWideGamut: true }, ['wide-gamut']],
    ['that high dynamic range is on', { isHighDynamicRange: true }, ['high-dynamic-range']],
    ['that the screen may dim', { isKeptAwake: false }, ['may-dim']],
  ])('%s', (_what, changes, expected) => {
    expect(codes(changes)).toEqual(expected);
  });

  test('in whole sentences that say what to do, with the figures', () => {
    const zoomed = { ...RIGHT, dpr: 1.5, inner: box(1280, 720) };
    expect(zoomOf(zoomed)).toBe(1.5);
    expect(findingsOf(zoomed)[0]!.text).toBe(
      'The browser’s zoom is 150 %: set it to 100 % (Ctrl+0, on a Mac Cmd+0).',
    );
    const scaled = { ...zoomed, outer: box(1280, 720), screen: box(1280, 720) };
    expect(findingsOf(scaled)[0]!.text).toContain('scale this screen by 1.5');
    expect(findingsOf(scaled)[0]!.text).toContain('1920 × 1080');
  });

  test('as scaled only if something is', () => {
    const scaled = (changes: Partial<Surface>) => isScaled({ ...RIGHT, ...changes });
    expect(scaled({ isFullScreen: false })).toBe(false);
    expect(scaled({ isHighDynamicRange: true })).toBe(false);
    expect(scaled({ pinch: 1.5 })).toBe(true);
    expect(scaled({ dpr: 1.25 })).toBe(true);
  });
});
