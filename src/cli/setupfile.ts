import * as v from 'valibot';
import { DECISION_RULES } from '../metrology/rules';
import { SIGNAL_STANDARDS } from '../photometry/colour';
import { KNOWN_LENGTHS } from '../photometry/image';
import { ILLUMINANCE_UNITS, LENGTH_UNITS } from '../photometry/units';
import { defaultRunSetup, MAX_REPEATS, METER_CLASSES, type RunSetup } from '../sheets/runsetup';
import { Failure } from './failure';

const positive = (max: number) => v.pipe(v.number(), v.gtValue(0), v.maxValue(max));
const part = v.pipe(v.number(), v.minValue(0), v.maxValue(1));
const words = v.pipe(v.string(), v.maxLength(120));
const date = v.union([v.literal(''), v.pipe(v.string(), v.isoDate(), v.minValue('2000-01-01'))]);
const length = positive(100_000);

const IMAGE = v.variant('shape', [
  v.strictObject({
    shape: v.literal('rectangle'),
    known: v.picklist(KNOWN_LENGTHS),
    length,
    unit: v.picklist(LENGTH_UNITS),
    across: length,
    down: length,
  }),
  v.strictObject({
    shape: v.literal('four sides'),
    unit: v.picklist(LENGTH_UNITS),
    top: length,
    right: length,
    bottom: length,
    left: length,
    falling: length,
    rising: length,
  }),
]);

const FIELDS = v.strictObject({
  white: v.optional(part),
  red: v.optional(part),
  green: v.optional(part),
  blue: v.optional(part),
  black: v.optional(part),
});

const RUN = v.strictObject({
  projector: v.optional(words),
  serial: v.optional(words),
  mode: v.optional(words),
  place: v.optional(words),
  measuredBy: v.optional(words),
  date: v.optional(date),
  meter: v.optional(
    v.strictObject({
      name: v.optional(words),
      unit: v.optional(v.picklist(ILLUMINANCE_UNITS)),
      range: v.optional(positive(1e6)),
      digit: v.optional(positive(1000)),
      calibratedOn: v.optional(date),
      calibration: v.optional(positive(10)),
      corrections: v.optional(
        v.strictObject({
          white: v.optional(positive(10)),
          red: v.optional(positive(10)),
          green: v.optional(positive(10)),
          blue: v.optional(positive(10)),
        }),
      ),
    }),
  ),
  image: v.optional(IMAGE),
  gain: v.optional(positive(20)),
  rated: v.optional(
    v.strictObject({
      white: v.optional(positive(1e6)),
      colour: v.optional(positive(1e6)),
      minimumFraction: v.optional(positive(2)),
    }),
  ),
  standard: v.optional(v.picklist(SIGNAL_STANDARDS)),
  colour: v.optional(v.picklist(['full fields', 'tiled patterns', 'none'])),
  ambient: v.optional(v.picklist(['none', 'once', 'nine points'])),
  black: v.optional(v.boolean()),
  checkerboard: v.optional(v.boolean()),
  corners: v.optional(v.boolean()),
  repeats: v.optional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(MAX_REPEATS))),
  uncertainty: v.optional(
    v.strictObject({
      meterClass: v.optional(v.picklist(METER_CLASSES)),
      ofReading: v.optional(part),
      digits: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(1000))),
      spectral: v.optional(FIELDS),
      width: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(1000))),
      height: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(1000))),
      square: v.optional(part),
      ambient: v.optional(v.pipe(v.number(), v.minValue(0), v.maxValue(100_000))),
      gain: v.optional(part),
      other: v.optional(part),
      level: v.optional(v.pipe(v.number(), v.minValue(0.5), v.maxValue(0.9999))),
      rule: v.optional(v.picklist(DECISION_RULES)),
    }),
  ),
});

/** More runs than one file of ours is for. */
const RUNS_MAX = 50;
const FILE = v.strictObject({ runs: v.pipe(v.array(RUN), v.minLength(1), v.maxLength(RUNS_MAX)) });

/** A set-up file's contents → complete set-ups, defaults filled in. @throws Failure that names every wrong entry */
export function readSetups(json: unknown, path: string): RunSetup[] {
  if (Array.isArray(json)) {
    throw new Failure(`${path} is not a set-up but a list.`, 'Several runs go into {"runs": [...]}.');
  }
  const isList = typeof json === 'object' && json !== null && 'runs' in json;
  const result = v.safeParse(FILE, isList ? json : { runs: [json] });
  if (result.success) return result.output.runs.map(complete);
  const wrong = result.issues.map((issue) => {
    const at = (v.getDotPath(issue) ?? '').replace(/^runs\.0\.?/, isList ? 'runs.0.' : '');
    return `${at || 'the file'}: ${issue.message}`;
  });
  throw new Failure(`${path} is not a set-up. ${wrong.join('; ')}`, 'light --help shows an example.');
}

function complete(run: v.InferOutput<typeof RUN>): RunSetup {
  const base = defaultRunSetup();
  return {
    ...base,
    ...run,
    meter: {
      ...base.meter,
      ...run.meter,
      corrections: { ...base.meter.corrections, ...run.meter?.corrections },
    },
    image: run.image ?? base.image,
    rated: { ...base.rated, ...run.rated },
    uncertainty: { ...base.uncertainty, ...run.uncertainty },
  };
}
