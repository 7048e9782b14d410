/** A word of the field: what it means here, and where that is from. */
export interface Term {
  readonly term: string;
  readonly meaning: string;
  /** "common practice" or "ours" where no document stands behind it. */
  readonly source: string;
}

/** In alphabetical order. One word for one thing: the sheets, the pane and the messages use these. */
export const TERMS: readonly Term[] = [
  {
    term: 'Acceptance number',
    meaning: 'The number of units of a sample that may fail before the whole lot is rejected.',
    source: 'ISO 2859-1:1999',
  },
  {
    term: 'Ambient light',
    meaning:
      'Light on the screen that is not the projector’s. It is read with the projector’s light blocked, not with a black picture, and taken off every reading.',
    source: 'common practice',
  },
  {
    term: 'AQL, acceptance quality limit',
    meaning:
      'The share of failing units, in per cent, up to which a series of lots is nearly always accepted.',
    source: 'ISO 2859-1:1999',
  },
  {
    term: 'Calibration factor',
    meaning:
      'The factor of the meter’s certificate by which every reading is multiplied; 1 where none is stated.',
    source: 'common practice',
  },
  {
    term: 'Colour light output',
    meaning:
      'The light of the red, the green and the blue field added, in lumens: what a coloured picture has to work with.',
    source: 'IDMS 1.03 section 5.4; NISTIR 6657 (formula from memory)',
  },
  {
    term: 'Colour to white',
    meaning:
      'Colour light output ÷ white light output. About 1: the three colours add up to white. Clearly below 1: light is added to white only.',
    source: 'NISTIR 6657 (abstract)',
  },
  {
    term: 'Contrast',
    meaning:
      'The illuminance of white ÷ that of black, from two full fields (sequential) or within one checkerboard. A black that the meter cannot read gives “at least”, never a number.',
    source: 'IEC 61947-1 (from memory); 16 zones: ANSI/INFOCOMM 3M-2011',
  },
  {
    term: 'Coverage factor k',
    meaning:
      'The number by which a standard uncertainty is multiplied to make an expanded one; about 2 for 95 %.',
    source: 'JCGM 100:2008, 6.3',
  },
  {
    term: 'Decision rule',
    meaning:
      'How the doubt counts when a result is held against a limit. It is chosen before the readings: without a guard band the value alone decides.',
    source: 'ILAC-G8:09/2019',
  },
  {
    term: 'Drift',
    meaning:
      'How far the light changed during a run: the centre in white, read again at the end, without ambient light. Over 2 % the run is repeated.',
    source: 'common practice',
  },
  {
    term: 'Expanded uncertainty U',
    meaning:
      'The half-width of the interval behind ±: the true value lies within it with the stated level of confidence, usually 95.45 %.',
    source: 'JCGM 100:2008, 2.3.5',
  },
  {
    term: 'Guard band',
    meaning:
      'The strip beside a limit in which a result is only conditional, as wide as its expanded uncertainty.',
    source: 'ILAC-G8:09/2019; JCGM 106:2012',
  },
  {
    term: 'Illuminance, lux, footcandle',
    meaning:
      'Light that falls on a surface: lumens per square metre (lx), or per square foot (fc, 10.764 lx).',
    source: 'CIE e-ILV 17-21-060 (from memory); footcandle: NIST SP 811 appendix B',
  },
  {
    term: 'Least part',
    meaning:
      'The part of the rated value that a unit must reach; 80 % is a lower limit that is commonly used.',
    source: 'common practice; check the edition that the contract names',
  },
  {
    term: 'Light output, lumen',
    meaning:
      'All the light that the projector puts on the image: the mean of the nine net illuminances × the area of the image. The nine-point mean is a convention, not the sum over the whole image.',
    source: 'ISO/IEC 21118 as retold (from memory)',
  },
  {
    term: 'Luminance',
    meaning:
      'How bright the screen looks from the seats: illuminance × gain ÷ π, in candela per square metre.',
    source: 'CIE e-ILV 17-24-063, 17-24-077',
  },
  {
    term: 'Measuring points',
    meaning:
      'The centres of three by three equal parts of the image; four more lie near the corners. Their places in centimetres stand on every run sheet.',
    source: 'ISO/IEC 21118 as retold (nine); IEC 61947-1, from memory (13)',
  },
  {
    term: 'Net reading',
    meaning:
      'Number on the display × range factor × unit × calibration, less ambient light; what is left × the correction of that colour.',
    source: 'common practice',
  },
  {
    term: 'Over range',
    meaning:
      'What a meter shows when there is more light than its range holds, often a lone 1 at the left. It is typed as “over” and is no number.',
    source: 'common practice',
  },
  {
    term: 'Plain formula',
    meaning:
      'The same result once more, in functions that every spreadsheet program has. It goes on calculating where this add-in is not installed.',
    source: 'ours',
  },
  {
    term: 'Range factor',
    meaning:
      'What the number on the display is multiplied by in the range that is set: 1, 10, 100 … To forget it is the commonest slip.',
    source: 'common practice',
  },
  {
    term: 'Run',
    meaning: 'One projector in one mode, measured from beginning to end without a change.',
    source: 'ours',
  },
  {
    term: 'Sample',
    meaning:
      'The units of a lot that are measured, drawn by a rule that anybody can repeat from the list and the seed.',
    source: 'ISO 2859-1:1999; the way of drawing is ours',
  },
  {
    term: 'Screen gain',
    meaning:
      'How much brighter the screen looks from the front than a perfectly matt white one: 1 is matt white.',
    source: 'common practice',
  },
  {
    term: 'Seal',
    meaning:
      'Fingerprints of all that a sheet holds, kept in the workbook. They tell later whether anything was changed; they do not prevent it, and only a signature tells by whom.',
    source: 'SHA-256: FIPS 180-4; the seal is ours',
  },
  {
    term: 'Spectral mismatch',
    meaning:
      'A meter’s eye is not quite the human one. On the narrow colours of a projector even a good meter errs by several per cent; a factor for each colour from its certificate takes that out.',
    source: 'ISO/CIE 19476 (from memory)',
  },
  {
    term: 'Spot check',
    meaning: 'One reading at the centre of each unit: tells which is brighter, and nothing in lumens.',
    source: 'common practice',
  },
  {
    term: 'Tiled patterns',
    meaning:
      'Three pictures of nine tiles in which every tile shows red, green and blue once: another way to read the colours that no projector can brighten as a full field.',
    source: 'rotated tiles: IDMS 1.03 chapter 15 (from memory); the arrangement is ours',
  },
  {
    term: 'Uniformity',
    meaning: 'The darkest of the nine points ÷ the brightest, or ÷ their mean.',
    source: 'min/max: ISO 11315-1:1997 (publisher’s overview); min/mean: common practice',
  },
  {
    term: 'White light output',
    meaning: 'The light output of a full white field.',
    source: 'ISO/IEC 21118 as retold (from memory)',
  },
];
