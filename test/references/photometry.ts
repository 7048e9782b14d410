/**
 * Published and worked values for light output, as printed: the text of `printed` gives the digits, and tests
 * allow half a unit of its last one. Every row says where its number comes from.
 */
export interface Printed {
  readonly name: string;
  readonly printed: string;
  readonly source: string;
}

/** Unit factors: SI units in one unit of the trade. */
export const UNIT_FACTORS: readonly (Printed & { readonly unit: 'fc' | 'fL' | 'ft' | 'in' })[] = [
  { name: 'footcandle, lx', unit: 'fc', printed: '10.76391', source: 'NIST SP 811, appendix B.8' },
  { name: 'footlambert, cd/m²', unit: 'fL', printed: '3.426259', source: 'NIST SP 811, appendix B.8' },
  { name: 'footcandle, lx', unit: 'fc', printed: '10.763910416709722', source: '1 ÷ 0.3048², by arithmetic' },
  {
    name: 'footlambert, cd/m²',
    unit: 'fL',
    printed: '3.4262590996353905',
    source: '1 ÷ (π · 0.3048²), by arithmetic',
  },
  { name: 'foot, m', unit: 'ft', printed: '0.3048', source: 'NIST SP 811, appendix B.8: exact' },
  { name: 'inch, m', unit: 'in', printed: '0.0254', source: 'NIST SP 811, appendix B.8: exact' },
];

/** Invented readings with results by exact arithmetic (rows as seen on the screen, lx; image 1.6 m × 0.9 m). */
export const WORKED_RUN = {
  nine: [
    [812, 905, 820],
    [890, 1000, 896],
    [805, 902, 815],
  ],
  corners: [
    [742, 751],
    [735, 748],
  ],
  width: 1.6,
  height: 0.9,
  results: {
    mean: { name: 'mean illuminance, lx', printed: '871.6666667', source: '7845 ÷ 9, by arithmetic' },
    output: { name: 'light output, lm', printed: '1255.2', source: '7845 ÷ 9 × 1.44, by arithmetic' },
    plus: {
      name: 'largest plus deviation',
      printed: '0.14722753',
      source: '1000 × 9 ÷ 7845 − 1; rule of IEC 61947-1 from memory',
    },
    minus: {
      name: 'largest minus deviation',
      printed: '-0.15678776',
      source: '735 × 9 ÷ 7845 − 1; rule of IEC 61947-1 from memory',
    },
    minMax: {
      name: 'min ÷ max of nine',
      printed: '0.805',
      source: '805 ÷ 1000; rule of ISO 11315-1:1997, publisher’s overview',
    },
    minMean: {
      name: 'min ÷ mean of nine',
      printed: '0.923518164',
      source: '805 × 9 ÷ 7845; common practice',
    },
    corners: {
      name: 'corners ÷ centre',
      printed: '0.744',
      source: '(742 + 751 + 735 + 748) ÷ 4 ÷ 1000; mean of corners from memory',
    },
  },
} as const;

/**
 * E = 1000·(1 − 0.4·(x² + y²)), x and y from −1 to 1: the nine-point mean against the integral (calculus).
 * Nine points at x, y ∈ {−2/3, 0, 2/3}.
 */
export const FALL_OFF = {
  nineMean: { name: 'nine-point mean, lx', printed: '762.962963', source: '1000·(1 − 0.4 · 16/27), by hand' },
  trueMean: {
    name: 'mean over the image, lx',
    printed: '733.333333',
    source: '1000·(1 − 0.4 · 2/3), calculus',
  },
  bias: { name: 'nine-point bias', printed: '0.040404', source: '762.963 ÷ 733.333 − 1' },
} as const;

/** Image sizes. Lengths in metres, area in m². */
export const IMAGES: readonly {
  readonly name: string;
  readonly known: 'width' | 'height' | 'diagonal';
  readonly length: number;
  readonly unit: 'm' | 'cm' | 'mm' | 'ft' | 'in';
  readonly aspect: string;
  readonly width: string;
  readonly height: string;
  readonly area: string;
  readonly source: string;
}[] = [
  {
    name: '4:3, height 1.2 m',
    known: 'height',
    length: 1.2,
    unit: 'm',
    aspect: '4:3',
    width: '1.6',
    height: '1.2',
    area: '1.92',
    source: '1.2 × 4/3, by hand',
  },
  {
    name: '16:9, diagonal 100 in',
    known: 'diagonal',
    length: 100,
    unit: 'in',
    aspect: '16:9',
    width: '2.213802',
    height: '1.245264',
    area: '2.756767',
    source: '2.54 × 16 ÷ √337, 2.54 × 9 ÷ √337, 2.54² × 144 ÷ 337, in 30-digit arithmetic',
  },
  {
    name: '1920 × 1080 pixels are 16:9',
    known: 'width',
    length: 3.2,
    unit: 'm',
    aspect: '1920x1080',
    width: '3.2',
    height: '1.8',
    area: '5.76',
    source: 'by hand',
  },
  {
    name: '17:9 stands for 4096 × 2160',
    known: 'width',
    length: 4096,
    unit: 'mm',
    aspect: '17:9',
    width: '4.096',
    height: '2.160',
    area: '8.84736',
    source: 'DCI 4K container 4096 × 2160; 17 ÷ 9 would give 2.168 m (from memory)',
  },
  {
    name: '16:10, height 3 ft',
    known: 'height',
    length: 3,
    unit: 'ft',
    aspect: '16:10',
    width: '1.46304',
    height: '0.9144',
    area: '1.337803776',
    source: '3 × 0.3048 and × 1.6, by hand',
  },
  {
    name: '2.39:1, width 239 cm',
    known: 'width',
    length: 239,
    unit: 'cm',
    aspect: '2.39:1',
    width: '2.39',
    height: '1.00',
    area: '2.39',
    source: 'by hand',
  },
];

/** Four sides in order round the image (top, right, bottom, left), then falling and rising diagonal. */
export const FOUR_SIDES: readonly (Printed & {
  readonly sides: readonly [number, number, number, number, number, number];
  /** Larger ratio of opposite sides, minus 1. */
  readonly difference: string;
})[] = [
  {
    name: 'rectangle 1.6 × 1.2',
    sides: [1.6, 1.2, 1.6, 1.2, 2, 2],
    printed: '1.92',
    difference: '0.0000000000',
    source: 'width × height; 3-4-5 triangle',
  },
  {
    name: 'isosceles trapezium, parallel sides 4 and 10, legs 5',
    sides: [4, 5, 10, 5, Math.sqrt(65), Math.sqrt(65)],
    printed: '28.0000000',
    difference: '1.5000000000',
    source: 'height √(5² − 3²) = 4, (4 + 10) ÷ 2 × 4; diagonals √(7² + 4²); by hand',
  },
  {
    name: 'kite with axes 8 (2 + 6) and 6 (3 + 3)',
    sides: [Math.sqrt(13), Math.sqrt(45), Math.sqrt(45), Math.sqrt(13), 8, 6],
    printed: '24.0000000',
    difference: '0.8605210188',
    source: 'half the product of perpendicular diagonals; √45 ÷ √13 − 1',
  },
];

/** Where the meter is held, as fractions of width and height. */
export const NINE_FRACTIONS = {
  printed: ['0.1666666667', '0.5', '0.8333333333'],
  source: 'centres of 3 × 3 equal rectangles (ISO/IEC 21118 as retold): 1/6, 3/6, 5/6',
};
export const CORNER_FRACTIONS = {
  printed: ['0.05', '0.95'],
  source: '10 % of the corner-to-centre line (IEC 61947-1, from memory) = 5 % of width and height',
};

/** Screen luminance. */
export const LUMINANCES: readonly (Printed & {
  readonly lux: number;
  readonly gain: number;
  readonly unit: 'cd/m²' | 'fL';
})[] = [
  {
    name: '500 lx, gain 1',
    lux: 500,
    gain: 1,
    unit: 'cd/m²',
    printed: '159.154943',
    source: '500 ÷ π (CIE e-ILV 17-24-063)',
  },
  {
    name: '500 lx, gain 1',
    lux: 500,
    gain: 1,
    unit: 'fL',
    printed: '46.45152',
    source: '500 × 0.3048²: footlamberts are footcandles × gain',
  },
  {
    name: '14 footcandles on gain 1',
    lux: 14 / 0.3048 ** 2,
    gain: 1,
    unit: 'cd/m²',
    printed: '47.968',
    source: '14 fL of digital cinema, called 48 cd/m² (SMPTE ST 431-1:2006, as retold)',
  },
  {
    name: '48 cd/m² of digital cinema',
    lux: 48 * Math.PI,
    gain: 1,
    unit: 'fL',
    printed: '14.009',
    source: 'SMPTE ST 431-1:2006, as retold: 48.0 cd/m²',
  },
  {
    name: 'gain 1.3 multiplies',
    lux: 500,
    gain: 1.3,
    unit: 'cd/m²',
    printed: '206.901426',
    source: '500 × 1.3 ÷ π, by arithmetic',
  },
];

/**
 * Relative luminance of the primaries at white. `published` are the luma coefficients as the standards print
 * them; `full` is computed from the published primaries and white by the normalised-primary method
 * (SMPTE RP 177, from memory).
 */
export const COLOUR_SHARES: readonly {
  readonly standard: string;
  readonly full: readonly [string, string, string];
  readonly published?: readonly [string, string, string];
  readonly source: string;
}[] = [
  {
    standard: 'BT.709',
    full: ['0.212639006', '0.715168679', '0.072192315'],
    published: ['0.2126', '0.7152', '0.0722'],
    source: 'ITU-R BT.709',
  },
  {
    standard: 'BT.2020',
    // Blue in exact fractions: 0.059 301 716 47; rounded up, the three would not add up to 1.
    full: ['0.262700212', '0.677998072', '0.059301716'],
    published: ['0.2627', '0.6780', '0.0593'],
    source: 'ITU-R BT.2020',
  },
  {
    standard: 'P3-DCI',
    full: ['0.209491678', '0.721595254', '0.068913068'],
    published: ['0.2095', '0.7216', '0.0689'],
    source: 'P3 with cinema white (.314, .351); coefficients from memory',
  },
  {
    standard: 'P3-D65',
    full: ['0.228974564', '0.691738522', '0.079286914'],
    source: 'P3 primaries with D65; computed only',
  },
  {
    standard: 'SMPTE-C',
    full: ['0.212376361', '0.701059857', '0.086563782'],
    source: 'SMPTE-C primaries with D65; computed only (SMPTE 240M prints .2122 .7013 .0865 for luma)',
  },
  {
    standard: 'EBU',
    full: ['0.222004310', '0.706654766', '0.071340924'],
    source: 'EBU primaries with D65; computed only',
  },
];
