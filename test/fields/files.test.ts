import { describe, expect, test } from 'vitest';
import { TEST_FIELDS, testField } from '../../src/fields/field';
import { fileName } from '../../src/fields/filename';
import { parseSize, RESOLUTIONS, sizeText } from '../../src/fields/size';
import { svgOf } from '../../src/fields/svg';

describe('SVG', () => {
  test('is a plain drawing of rectangles, one unit a pixel', () => {
    const size = { width: 400, height: 320 };
    expect(svgOf(size, testField('board').marks(size).slice(0, 2), 'White & black <4')).toBe(
      [
        '<svg xmlns="http://www.w3.org/2000/svg" width="400" height="320" viewBox="0 0 400 320" shape-rendering="crispEdges">',
        '<title>White &amp; black &lt;4</title>',
        '<rect x="0" y="0" width="100" height="80" fill="#ffffff"/>',
        '<rect x="100" y="0" width="100" height="80" fill="#000000"/>',
        '</svg>',
        '',
      ].join('\n'),
    );
  });
});

test('files sort in the order of the fields', () => {
  const names = TEST_FIELDS.map(({ id }) => fileName(id, { width: 1920, height: 1080 }, 'png'));
  expect(names).toEqual([...names].sort());
  expect(names[3]).toBe('04-white-1920x1080.png');
});

describe('a typed resolution', () => {
  test.each([
    ['1920 x 1080', 1920, 1080],
    ['1920×1080', 1920, 1080],
    ['  1366X768 px ', 1366, 768],
    ['1400 1050', 1400, 1050],
    ['1920*1200', 1920, 1200],
    ['320,320', 320, 320],
    ['8192;8192', 8192, 8192],
  ])('%s', (text, width, height) => {
    expect(parseSize(text)).toEqual({ ok: true, value: { width, height } });
  });

  test.each([
    ['', 'The resolution is two whole numbers of pixels such as 1920 x 1080; it is "".'],
    ['1920', 'The resolution is two whole numbers of pixels such as 1920 x 1080; it is "1920".'],
    [
      '1920.5 x 1080',
      'The resolution is two whole numbers of pixels such as 1920 x 1080; it is "1920.5 x 1080".',
    ],
    ['-5 x 8', 'The resolution is two whole numbers of pixels such as 1920 x 1080; it is "-5 x 8".'],
    ['319 x 1080', 'Width and height must be from 320 to 8192 pixels; they are 319 and 1080.'],
    ['1920 x 8193', 'Width and height must be from 320 to 8192 pixels; they are 1920 and 8193.'],
  ])('"%s" is refused', (text, message) => {
    const found = parseSize(text);
    expect(found.ok || found.problems.map((problem) => problem.message)).toEqual([message]);
  });

  test('every offered one can be read back', () => {
    for (const size of RESOLUTIONS) expect(parseSize(sizeText(size))).toEqual({ ok: true, value: size });
  });
});
