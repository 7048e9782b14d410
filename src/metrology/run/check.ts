import { invalid, missing, type Problem } from '../../photometry/outcome';
import { notAboveZero, notAtLeastZero, notDegreesOfFreedom } from '../check';
import { DISTRIBUTIONS } from '../distribution';
import { CLASS_TOTAL, SPECTRAL_PER_F1 } from './defaults';
import { type BoardInput, FIELD_NAMES, type FieldInput, type FieldName, type RunInput } from './input';

/** Everything that is wrong with a run's numbers, all at once; empty where it can be evaluated. */
export function runProblems(input: RunInput): Problem[] {
  const { image, meter, ambient, drift, screen, others = [] } = input;
  return [
    ...notAboveZero(image.width, 'image width'),
    ...notAboveZero(image.height, 'image height'),
    ...half(image.widthHalf, 'half-width of the image width'),
    ...half(image.heightHalf, 'half-width of the image height'),
    ...half(image.squareHalf, 'half-width for an image that is not square'),
    ...half(meter.ofReading, "meter's fraction of the reading"),
    ...above(meter.coverageFactor, "meter's coverage factor"),
    ...choice(meter.meterClass, Object.keys(CLASS_TOTAL), 'meter class'),
    ...choice(meter.distribution, DISTRIBUTIONS, "distribution of the meter's accuracy"),
    ...half(meter.digits, "meter's digits"),
    ...half(meter.digit, 'step of the display'),
    ...(meter.digitByRange ?? []).flatMap(({ digit, range }) =>
      half(digit, `step of the display on range × ${range}`),
    ),
    ...above(meter.luxPerUnit, 'lux per unit of the display'),
    ...FIELD_NAMES.flatMap((name) => (input[name] ? fieldProblems(name, input[name], input) : [])),
    ...(input.board ? boardProblems(input.board) : []),
    ...(ambient ? ambientProblems(ambient.value, input) : []),
    ...half(ambient?.half, 'half-width of the ambient illuminance'),
    ...(ambient?.range === undefined ? [] : ambientRangeProblems(ambient.range, input)),
    ...above(ambient?.calibration, 'calibration factor of the ambient reading'),
    ...half(input.spectrum?.f1, "meter's f1′"),
    ...choice(input.spectrum?.light, Object.keys(SPECTRAL_PER_F1), 'kind of light source'),
    ...half(input.placing?.half, 'half-width of the placing of the meter'),
    ...above(input.repeatability?.part, 'repeatability of a reading'),
    ...(input.repeatability?.readings === undefined
      ? []
      : notDegreesOfFreedom(input.repeatability.readings - 1, 'degrees of freedom of the repeatability')),
    ...half(input.oblique?.f2, "meter's f2"),
    ...half(input.linearity?.half, "half-width of the meter's linearity"),
    ...half(input.room?.half, 'half-width of the light the room sends back'),
    ...above(input.sensor?.throwDistance, 'throw distance'),
    ...half(input.sensor?.height, 'height of the sensor'),
    ...(drift
      ? [
          ...notAboveZero(drift.first, 'first centre reading'),
          ...notAboveZero(drift.last, 'last centre reading'),
        ]
      : []),
    ...above(screen?.gain, 'screen gain'),
    ...half(screen?.half, 'half-width of the screen gain'),
    ...others.flatMap((other) => [
      ...half(other.half, `half-width of "${other.label}"`),
      ...above(other.coverageFactor, `coverage factor of "${other.label}"`),
      ...(other.dof === undefined
        ? []
        : notDegreesOfFreedom(other.dof, `degrees of freedom of "${other.label}"`)),
      ...choice(other.distribution, DISTRIBUTIONS, `distribution of "${other.label}"`),
      ...choice(
        other.appliesTo,
        ['all', 'colours', ...FIELD_NAMES.slice(0, 4)],
        `what "${other.label}" applies to`,
      ),
    ]),
    ...(new Set(others.map(({ label }) => label)).size < others.length
      ? [invalid('choice', 'other components', 'Other components need labels of their own.')]
      : []),
  ];
}

const half = (value: number | undefined, where: string) =>
  value === undefined ? [] : notAtLeastZero(value, where);
const above = (value: number | undefined, where: string) =>
  value === undefined ? [] : notAboveZero(value, where);
function choice(value: string | undefined, choices: readonly string[], where: string): Problem[] {
  if (value === undefined || choices.includes(value)) return [];
  return [invalid('choice', where, `The ${where} must be one of ${choices.join(', ')}; it is "${value}".`)];
}

/** As many as white has; nine where white has none, so that other readings are not blamed for it. */
const pointsOf = ({ white }: RunInput) => white.repeats[0]?.length || 9;

function fieldProblems(name: FieldName, field: FieldInput, input: RunInput): Problem[] {
  const { repeats } = field;
  const points = pointsOf(input);
  if (repeats.length === 0 || repeats.some((grid) => grid.length !== points)) {
    return [
      invalid(
        'shape',
        `${name} readings`,
        `The ${name} readings must be one or more lists of ${points} numbers; they are ${repeats.map((grid) => grid.length).join(', ') || 'none'}.`,
      ),
    ];
  }
  const { range = 1, correction = 1, light = 1 } = field;
  if (typeof range !== 'number' && range.length !== points) {
    return [
      invalid(
        'shape',
        `${name} ranges`,
        `There must be one ${name} range factor, or ${points}; there are ${range.length}.`,
      ),
    ];
  }
  const problems: Problem[] = [];
  repeats.forEach((grid, k) => {
    for (let i = 0; i < points; i++) {
      const reading = grid[i]!;
      // The words are made only where they are needed: most readings are good.
      if (reading === null ? k > 0 : reading >= 0 && reading < Number.POSITIVE_INFINITY) continue;
      const where = `${name} reading at point ${i + 1}${k === 0 ? '' : `, repeat ${k + 1}`}`;
      if (reading === null) problems.push(missing(where, `The ${where} is missing.`));
      else problems.push(...notAtLeastZero(reading, where));
    }
  });
  const factors = typeof range === 'number' ? [range] : range;
  for (const factor of factors) problems.push(...notAboveZero(factor, `${name} range factor`));
  return [
    ...problems,
    ...notAboveZero(correction, `${name} correction`),
    ...notAboveZero(light, `correction of ${name} light alone`),
    ...half(field.spectralHalf, `half-width of the ${name} spectral correction`),
  ];
}

/** Each kind of tile needs at least one reading; white ones may be as many as they are. */
function boardProblems({ white, black, range, correction, light, blackSpectralHalf }: BoardInput): Problem[] {
  const tiles = (readings: readonly number[], kind: string) => [
    ...(readings.length === 0
      ? [missing('checkerboard', `The checkerboard has no readings of its ${kind} tiles.`)]
      : []),
    ...readings.flatMap((reading, i) => notAtLeastZero(reading, `reading at ${kind} tile ${i + 1}`)),
  ];
  return [
    ...tiles(white, 'white'),
    ...tiles(black, 'black'),
    ...above(range, 'checkerboard range factor'),
    ...above(correction, 'checkerboard correction'),
    ...above(light, 'correction of checkerboard light alone'),
    ...half(blackSpectralHalf, 'half-width of the black spectral correction'),
  ];
}

function ambientRangeProblems(range: number | readonly number[], input: RunInput): Problem[] {
  const points = pointsOf(input);
  if (typeof range !== 'number' && range.length !== points) {
    return [
      invalid(
        'shape',
        'ambient ranges',
        `There must be one ambient range factor, or ${points}; there are ${range.length}.`,
      ),
    ];
  }
  return [range].flat().flatMap((factor) => notAboveZero(factor, 'ambient range factor'));
}

function ambientProblems(value: number | readonly number[], input: RunInput): Problem[] {
  if (typeof value === 'number') return notAtLeastZero(value, 'ambient illuminance');
  const points = pointsOf(input);
  if (value.length !== points) {
    return [
      invalid(
        'shape',
        'ambient illuminance',
        `There must be one ambient illuminance, or ${points}; there are ${value.length}.`,
      ),
    ];
  }
  return value.flatMap((lux, i) => notAtLeastZero(lux, `ambient illuminance at point ${i + 1}`));
}
