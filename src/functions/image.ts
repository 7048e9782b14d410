import {
  ASPECTS,
  imageSize,
  inMetres,
  KNOWN_LENGTHS,
  parseAspect,
  quadrilateral,
  sizeProblems,
} from '../photometry/image';
import { bad, chain, good, type Outcome } from '../photometry/outcome';
import { measuringPoints } from '../photometry/points';
import { LENGTH_UNITS, METRES } from '../photometry/units';
import { choice, number, text } from './params';
import { define } from './record';

const lengthUnit = () => choice('unit of the lengths', 'LENGTHUNIT', LENGTH_UNITS, 'm');
/** Lengths of an image in metres, once every one can be that of an image. */
function sized<T extends Readonly<Record<string, number>>, R>(
  metres: T,
  use: (metres: T) => Outcome<R>,
): Outcome<R> {
  const problems = sizeProblems(metres);
  return problems.length > 0 ? bad(...problems) : use(metres);
}
const length = (what: string) => number(what, 'in the unit given', { moreThan: 0 });

export const imageFunctions = [
  define({
    id: 'IMAGESIZE',
    summary: 'Width, height, diagonal (m) and area (m²) of an image from one length and its aspect ratio.',
    params: {
      known: choice('which length is known', 'KNOWNLENGTH', KNOWN_LENGTHS),
      length: length('the known length'),
      aspect: text(
        'aspect ratio, two numbers such as 21:9, or native pixels such as 1920x1080',
        'ASPECT',
        Object.keys(ASPECTS),
        parseAspect,
      ),
      unit: lengthUnit(),
    },
    result: { kind: 'table', unit: 'm, m²' },
    formula: 'width : height = aspect; diagonal² = width² + height²; area = width × height',
    source: 'plane geometry',
    example: '=LIGHT.IMAGESIZE("diagonal",100,"16:9","in")',
    compute: ({ known, length, aspect, unit }) =>
      chain(
        sized({ [`image ${known}`]: length * METRES[unit] }, () =>
          imageSize(known, length * METRES[unit], aspect),
        ),
        ({ width, height, diagonal, area }) =>
          good([
            ['width', width, 'm'],
            ['height', height, 'm'],
            ['diagonal', diagonal, 'm'],
            ['area', area, 'm²'],
          ]),
      ),
  }),
  define({
    id: 'IMAGEAREA',
    summary: 'Area of a rectangular image.',
    params: { width: length('image width'), height: length('image height'), unit: lengthUnit() },
    result: { kind: 'number', unit: 'm²' },
    formula: 'area = width × height',
    source: 'plane geometry',
    example: '=LIGHT.IMAGEAREA(1.6,1.2)',
    compute: ({ width, height, unit }) =>
      sized(
        { 'image width': width * METRES[unit], 'image height': height * METRES[unit] },
        ({ 'image width': w, 'image height': h }) => good(w * h),
      ),
  }),
  define({
    id: 'FOURSIDEDAREA',
    summary: 'Area of an image that is not square, from its four sides and two diagonals.',
    params: {
      top: length('top side'),
      right: length('right side'),
      bottom: length('bottom side'),
      left: length('left side'),
      falling: length('diagonal from top left to bottom right'),
      rising: length('diagonal from bottom left to top right'),
      unit: lengthUnit(),
    },
    result: { kind: 'number', unit: 'm²' },
    formula: 'area = ¼·√(4p²q² − (b² + d² − a² − c²)²)',
    source:
      'Bretschneider’s formula (handbooks of geometry); six lengths that miss a plane figure by over 1 % are refused',
    example: '=LIGHT.FOURSIDEDAREA(1.6,1.2,1.6,1.2,2,2)',
    compute: ({ unit, ...sides }) =>
      chain(sized({ ...inMetres(sides, unit) }, quadrilateral), ({ area }) => good(area)),
  }),
  define({
    id: 'POINTS',
    summary:
      'Where to hold the meter: each measuring point’s distance from the left and top edge of the image, in centimetres.',
    params: {
      count: choice('9 points, or 13 with the corners', 'POINTCOUNT', ['9', '13']),
      width: length('image width'),
      height: length('image height'),
      unit: lengthUnit(),
    },
    result: { kind: 'table', unit: 'cm' },
    formula: 'centres of 3 × 3 equal rectangles; points 10 to 13 at 10 % of the line from corner to centre',
    source: 'ISO/IEC 21118 as retold (nine); IEC 61947-1, from memory (13)',
    example: '=LIGHT.POINTS("9",1.6,1.2)',
    compute: ({ count, width, height, unit }) => {
      const m = METRES[unit] as number;
      const cm = m / METRES.cm;
      const rows = measuringPoints(count === '9' ? 9 : 13).map(({ number: n, name, u, v }) => [
        n,
        name,
        u * width * cm,
        v * height * cm,
      ]);
      return sized({ 'image width': width * m, 'image height': height * m }, () =>
        good([['point', 'position', 'from left, cm', 'from top, cm'], ...rows]),
      );
    },
  }),
];
