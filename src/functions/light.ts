import { IMAGE_METRES } from '../photometry/bounds';
import { colourLightOutput, colourToWhite, fittedOutput, lightOutput } from '../photometry/lightoutput';
import { all, chain, good, type Outcome } from '../photometry/outcome';
import { type Conversion, type GridShape, mean, NINE, netIlluminances, SINGLE } from '../photometry/reading';
import { PRIMARIES, type Primary, sortTiles } from '../photometry/tiles';
import { ILLUMINANCE_UNITS } from '../photometry/units';
import { FIELDS, findings } from './findings';
import { ambient, anyCells, choice, grid, light, number, perReading, readings } from './params';
import { define } from './record';

/** What bears on all that the meter reads, ambient light included. */
export const correction = (of = '') => number(`calibration factor${of}`, '', { moreThan: 0 }, 1);

/** The arguments that turn display numbers into illuminances, in this order wherever readings are taken. */
export const conversionParams = (shape: GridShape) => ({
  unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
  range: perReading(shape, 'range factor (1, 10, 100 …)'),
  correction: correction(),
  ambient: ambient(shape),
});

/** Larger is no image, but somebody's centimetres or inches. */
const LARGEST_AREA = IMAGE_METRES.max ** 2;

export const area = () => number('image area', 'm²', { moreThan: 0, max: LARGEST_AREA });

const OUTPUT_SOURCE =
  'F = E_avg × A: ISO 11315-1:1997 (publisher’s overview); ISO/IEC 21118 as retold. A convention, not the integral.';

/** Display numbers of nine points → lumens. */
function output(
  label: string,
  display: readonly number[],
  area: number,
  conversion: Conversion,
): Outcome<number> {
  return chain(netIlluminances(display, NINE, label, conversion), (nine) => lightOutput(nine, area));
}

export const lightFunctions = [
  define({
    id: 'ILLUMINANCE',
    summary: 'Illuminance in lux from a number on the meter’s display.',
    params: {
      // Black and ambient light may read 0, so an empty cell passes here: the sheet counts before it calls.
      display: number('number on the display', '', { min: 0 }),
      unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
      range: number('range factor (1, 10, 100 …)', '', { moreThan: 0 }, 1),
      correction: number('calibration factor × spectral correction', '', { moreThan: 0 }, 1),
    },
    result: { kind: 'number', unit: 'lx' },
    formula: 'E = display × range factor × lux per unit × correction',
    source: 'common practice; footcandle: NIST SP 811 appendix B',
    example: '=LIGHT.ILLUMINANCE(248,"lx",10)',
    compute: ({ display, unit, range, correction }) =>
      chain(netIlluminances([display], SINGLE, 'display', { unit, range, correction, ambient: 0 }), ([e]) =>
        good(e!),
      ),
  }),
  define({
    id: 'FINDINGS',
    summary:
      'What is wrong or odd about nine readings, in words: missing, over range, implausible, too few digits.',
    params: {
      field: choice('which field was shown', 'FIELD', FIELDS),
      readings: anyCells('nine readings as on the display, 3 × 3 cells, whatever stands in them'),
      unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
      range: perReading(NINE, 'range factor (1, 10, 100 …)'),
      correction: correction(),
      ambient: ambient(NINE),
      digit: number('step of the display’s last digit in its lowest range', '', { min: 0 }, 0),
    },
    result: { kind: 'text', unit: '' },
    formula: 'every problem of the readings; more than 3 × or less than ⅓ of the median is questioned',
    source: 'common practice',
    example: '=LIGHT.FINDINGS("white",WhiteReadings)',
    compute: ({ field, readings: raw, digit, ...conversion }) =>
      good(findings(field, raw, digit, conversion)),
  }),
  define({
    id: 'MEANILLUMINANCE',
    summary: 'Mean of nine net illuminances.',
    params: { readings: readings(NINE, 'nine-point'), ...conversionParams(NINE), light: light() },
    result: { kind: 'number', unit: 'lx' },
    formula: 'E = mean of ((display × range factor × lux per unit × correction − ambient) × light)',
    source: OUTPUT_SOURCE,
    example: '=LIGHT.MEANILLUMINANCE(WhiteReadings)',
    compute: (a) => chain(netIlluminances(a.readings, NINE, 'nine-point', a), (nine) => good(mean(nine))),
  }),
  define({
    id: 'OUTPUT',
    summary: 'Light output of one field: mean of nine net illuminances times the image area.',
    params: {
      readings: readings(NINE, 'nine-point'),
      area: area(),
      ...conversionParams(NINE),
      light: light(),
    },
    result: { kind: 'number', unit: 'lm' },
    formula: 'Φ = area × mean of ((display × range factor × lux per unit × correction − ambient) × light)',
    source: OUTPUT_SOURCE,
    example: '=LIGHT.OUTPUT(WhiteReadings,ImageArea)',
    compute: (a) => output('nine-point', a.readings, a.area, a),
  }),
  define({
    id: 'FITTEDOUTPUT',
    summary:
      'Estimate of the light output over the whole image, by a smooth surface through nine points: for figures of other origin.',
    params: {
      readings: readings(NINE, 'nine-point'),
      area: area(),
      ...conversionParams(NINE),
      light: light(),
    },
    result: { kind: 'number', unit: 'lm' },
    formula: 'Φ = area × (9 × corners + 6 × edges + 4 × centre of the net illuminances) ÷ 64',
    source:
      'Maclaurin’s three-point rule across and down (handbooks of numerical integration); an estimate, not the convention of nine points',
    example: '=LIGHT.FITTEDOUTPUT(WhiteReadings,ImageArea)',
    compute: ({ readings, area, ...conversion }) =>
      chain(netIlluminances(readings, NINE, 'nine-point', conversion), (nine) => fittedOutput(nine, area)),
  }),
  define({
    id: 'COLOUROUTPUT',
    summary: 'Colour light output: red, green and blue light output added up.',
    params: {
      red: readings(NINE, 'red'),
      green: readings(NINE, 'green'),
      blue: readings(NINE, 'blue'),
      area: area(),
      unit: choice('unit on the meter’s display', 'ILLUMINANCEUNIT', ILLUMINANCE_UNITS, 'lx'),
      redRange: perReading(NINE, 'range factor of the red readings'),
      greenRange: perReading(NINE, 'range factor of the green readings'),
      blueRange: perReading(NINE, 'range factor of the blue readings'),
      redCorrection: correction(', red readings'),
      greenCorrection: correction(', green readings'),
      blueCorrection: correction(', blue readings'),
      ambient: ambient(NINE),
      redLight: light(', red,'),
      greenLight: light(', green,'),
      blueLight: light(', blue,'),
    },
    result: { kind: 'number', unit: 'lm' },
    formula: 'Φ_colour = Φ_red + Φ_green + Φ_blue',
    source: 'colour-signal white: IDMS 1.03 section 5.4, NISTIR 6657 (formula from memory)',
    example: '=LIGHT.COLOUROUTPUT(RedReadings,GreenReadings,BlueReadings,ImageArea)',
    compute: (a) =>
      chain(
        all([
          output('red', a.red, a.area, {
            unit: a.unit,
            range: a.redRange,
            correction: a.redCorrection,
            ambient: a.ambient,
            light: a.redLight,
          }),
          output('green', a.green, a.area, {
            unit: a.unit,
            range: a.greenRange,
            correction: a.greenCorrection,
            ambient: a.ambient,
            light: a.greenLight,
          }),
          output('blue', a.blue, a.area, {
            unit: a.unit,
            range: a.blueRange,
            correction: a.blueCorrection,
            ambient: a.ambient,
            light: a.blueLight,
          }),
        ] as const),
        ([red, green, blue]) => good(colourLightOutput(red, green, blue)),
      ),
  }),
  define({
    id: 'TILED',
    summary: 'Readings of the three tiled patterns sorted into the nine of one primary.',
    params: {
      patternA: grid(NINE, 'pattern A'),
      patternB: grid(NINE, 'pattern B'),
      patternC: grid(NINE, 'pattern C'),
      primary: choice('which primary', 'PRIMARY', PRIMARIES),
    },
    result: { kind: 'table', unit: 'as read' },
    formula: 'tile in row r, column c of pattern p shows primary (r + c + p) mod 3 of red, green, blue',
    source: 'rotated tiles: IDMS 1.03 chapter 15 (from memory); the arrangement is ours',
    example: '=LIGHT.TILED(PatternA,PatternB,PatternC,"red")',
    compute: ({ patternA, patternB, patternC, primary }) =>
      good(sortTiles([patternA, patternB, patternC], primary as Primary)),
  }),
  define({
    id: 'RATIO',
    summary:
      'Colour to white ratio: about 1 where the primaries add up to white; clearly below 1 where light is added to white only.',
    params: {
      // An empty cell arrives as 0, and a missing colour figure is a question, not a ratio of 0.
      colour: number('colour light output', 'lm', { moreThan: 0 }),
      white: number('white light output', 'lm', { moreThan: 0 }),
    },
    result: { kind: 'number', unit: '' },
    formula: 'ratio = colour light output ÷ white light output',
    source: 'NISTIR 6657 (abstract)',
    example: '=LIGHT.RATIO(ColourLightOutput,WhiteLightOutput)',
    compute: ({ colour, white }) => colourToWhite(colour, white),
  }),
];
