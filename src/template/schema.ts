import * as v from 'valibot';
import { DECISION_RULES, DEFAULT_LEVEL } from '../metrology/words';
import { SIGNAL_STANDARDS } from '../photometry/colour';
import { KNOWN_LENGTHS } from '../photometry/image';
import { ILLUMINANCE_UNITS, LENGTH_UNITS } from '../photometry/units';
import { BATCH_READINGS } from '../procurement/batch/columns';
import { AQLS } from '../procurement/lot/master';
import { COUNTINGS } from '../procurement/lot/verdict';
import { VIEWING_TASKS } from '../procurement/need/tasks';
import { DEFAULT_STANDARD } from '../procurement/wording/tender';
import { BATCH_UNITS } from '../sheets/batch/setup';
import { defaultRoom } from '../sheets/need';
import { defaultRunSetup, MAX_REPEATS, METER_CLASSES } from '../sheets/runsetup';
import { SPOT_REFERENCES } from '../sheets/spot/setup';
import { choice, date, fields, list, number, option, part, text, truth } from './fields';

export const FORMAT = 'light-template';
export const VERSION = 1;

/** More rooms than the need step takes are none of a template either. */
const MOST_ROOMS = 100;
/** A run sheet is 600 cells and some seconds: more units of one bid belong into a batch. */
export const MOST_RUNS = 24;
/** A paragraph for a tender; Excel takes 32 767 characters in a cell. */
const PARAGRAPH_MAX = 4000;

const length = () => number({ moreThan: 0, max: 100_000 });
const factor = () => number({ moreThan: 0, max: 10 });
const metres = () => number({ moreThan: 0, max: 100 });

const run = defaultRunSetup();
const room = defaultRoom();

const ROOM = fields({
  room: text(80, { min: 1 }),
  width: metres(),
  height: metres(),
  gain: v.optional(number({ moreThan: 0, max: 20 }), room.gain),
  ambient: v.optional(number({ moreThan: 0, max: 200_000 })),
  task: v.optional(choice(VIEWING_TASKS), room.task),
  contrast: v.optional(number({ moreThan: 1, max: 1_000_000 })),
  ownContrast: v.optional(number({ moreThan: 1, max: 10_000_000 })),
  luminance: v.optional(number({ moreThan: 0, max: 100_000 })),
  ageing: v.optional(part(0.01)),
  mode: v.optional(part(0.01)),
  colourPart: v.optional(part(0.01)),
});

const RESERVES = fields({
  ageing: v.optional(part(0.01), room.ageing),
  mode: v.optional(part(0.01), room.mode),
  colourPart: v.optional(part(0.01), room.colourPart),
});

const COLOURS = fields({
  white: v.optional(factor(), 1),
  red: v.optional(factor(), 1),
  green: v.optional(factor(), 1),
  blue: v.optional(factor(), 1),
});

export const METER = fields({
  name: v.optional(text(120), ''),
  unit: v.optional(choice(ILLUMINANCE_UNITS), run.meter.unit),
  range: v.optional(number({ moreThan: 0, max: 1_000_000 }), run.meter.range),
  digit: v.optional(number({ moreThan: 0, max: 1000 }), run.meter.digit),
  calibratedOn: v.optional(date(), ''),
  calibration: v.optional(factor(), 1),
  corrections: v.optional(COLOURS, {}),
});

const IMAGE = v.variant(
  'shape',
  [
    option({
      shape: v.literal('rectangle'),
      known: choice(KNOWN_LENGTHS),
      length: length(),
      unit: choice(LENGTH_UNITS),
      across: length(),
      down: length(),
    }),
    option({
      shape: v.literal('four sides'),
      unit: choice(LENGTH_UNITS),
      top: length(),
      right: length(),
      bottom: length(),
      left: length(),
      falling: length(),
      rising: length(),
    }),
  ],
  'an object with a "shape" that is "rectangle" or "four sides"',
);

/** What is measured and how: of a template, and of a run's set-up file. */
export const MEASURING = {
  image: v.optional(IMAGE),
  gain: v.optional(number({ moreThan: 0, max: 20 }), run.gain),
  standard: v.optional(choice(SIGNAL_STANDARDS), run.standard),
  colour: v.optional(choice(['full fields', 'tiled patterns', 'none']), run.colour),
  ambient: v.optional(choice(['none', 'once', 'nine points']), run.ambient),
  black: v.optional(truth(), run.black),
  checkerboard: v.optional(truth(), run.checkerboard),
  corners: v.optional(truth(), run.corners),
  repeats: v.optional(number({ min: 1, max: MAX_REPEATS, whole: true }), run.repeats),
};

/** What is known of the uncertainty, as half-widths. */
export const UNCERTAINTY = {
  meterClass: v.optional(choice(METER_CLASSES), 'unknown'),
  ofReading: v.optional(part()),
  digits: v.optional(number({ min: 0, max: 1000 })),
  spectral: v.optional(
    fields({
      white: v.optional(part()),
      red: v.optional(part()),
      green: v.optional(part()),
      blue: v.optional(part()),
      black: v.optional(part()),
    }),
  ),
  width: v.optional(number({ min: 0, max: 1000 })),
  height: v.optional(number({ min: 0, max: 1000 })),
  square: v.optional(part()),
  ambient: v.optional(number({ min: 0, max: 100_000 })),
  gain: v.optional(part()),
  other: v.optional(part()),
};

/** By which rule is decided, and at which level of confidence. */
export const RULE = {
  rule: v.optional(choice(DECISION_RULES), DECISION_RULES[0]),
  level: v.optional(number({ min: 0.5, max: 0.9999 }), DEFAULT_LEVEL),
};

const DECISION = fields({
  ...RULE,
  leastPart: v.optional(part(0.01), run.rated.minimumFraction),
  counting: v.optional(choice(COUNTINGS), 'value'),
});

const paragraph = () => v.optional(text(PARAGRAPH_MAX, { isParagraph: true }));

/** Paragraphs as edited; the first one names figures and is always written anew. */
const PARAGRAPHS = fields({
  method: paragraph(),
  conditions: paragraph(),
  decision: paragraph(),
  lot: paragraph(),
  answer: paragraph(),
});

const WORDING = fields({
  standard: v.optional(text(120, { min: 1 }), DEFAULT_STANDARD),
  conditions: v.optional(list(text(500, { min: 1 }), 20), []),
  paragraphs: v.optional(PARAGRAPHS, {}),
});

const aql = v.picklist(AQLS, `one of ${AQLS.join(', ')}`);
const SAMPLE = fields({
  units: v.optional(number({ min: 2, max: 500_000, whole: true })),
  aql: v.optional(aql, 2.5),
});

const USE = fields({
  years: v.optional(number({ moreThan: 0, max: 50 })),
  hoursPerYear: v.optional(number({ moreThan: 0, max: 8784 })),
  tariff: v.optional(number({ moreThan: 0, max: 1000 })),
  currency: v.optional(text(12), ''),
});

/** Where the rated figures of run sheets and batches are from. */
const rated = () => v.optional(choice(['typed later', 'chosen offer']), 'typed later');

const RUNS = v.variant(
  'for',
  [
    /** One for each room, as large as its image. */
    option({ for: v.literal('rooms'), mode: v.optional(text(120), ''), rated: rated() }),
    /** One for each unit of the drawn sample; the serials come when the template is applied. */
    option({
      for: v.literal('sample'),
      projector: v.optional(text(120), ''),
      mode: v.optional(text(120), ''),
      rated: rated(),
    }),
    option({
      for: v.literal('list'),
      rated: rated(),
      units: list(
        fields({
          projector: text(120, { min: 1 }),
          serial: v.optional(text(80), ''),
          mode: v.optional(text(120), ''),
          place: v.optional(text(120), ''),
        }),
        MOST_RUNS,
        1,
      ),
    }),
  ],
  'an object with a "for" that is "rooms", "sample" or "list"',
);

const SHEETS = fields({
  need: v.optional(fields({ spare: v.optional(number({ min: 0, max: 50, whole: true }), 5) })),
  offers: v.optional(fields({ lines: v.optional(number({ min: 1, max: 200, whole: true }), 10) })),
  runs: v.optional(RUNS),
  comparison: v.optional(truth(), false),
  spot: v.optional(
    fields({
      reference: v.optional(choice(SPOT_REFERENCES), 'first'),
      ambient: v.optional(truth(), true),
    }),
  ),
  batch: v.optional(
    fields({
      readings: v.optional(choice(BATCH_READINGS), BATCH_READINGS[0]),
      lines: v.optional(number({ min: BATCH_UNITS.min, max: BATCH_UNITS.max, whole: true }), 20),
      rated: rated(),
    }),
  ),
  acceptance: v.optional(fields({ least: v.optional(choice(['chosen offer', 'need']), 'chosen offer') })),
  certificates: v.optional(truth(), false),
  ageing: v.optional(choice(['none', 'one', 'each unit']), 'none'),
  overview: v.optional(truth(), true),
});

export const TEMPLATE = fields({
  format: v.literal(FORMAT),
  version: v.literal(VERSION),
  title: text(80, { min: 1 }),
  note: v.optional(text(500, { isParagraph: true }), ''),
  rooms: v.optional(list(ROOM, MOST_ROOMS), []),
  reserves: v.optional(RESERVES, {}),
  meter: v.optional(METER, {}),
  measuring: v.optional(fields(MEASURING), {}),
  uncertainty: v.optional(fields(UNCERTAINTY), {}),
  decision: v.optional(DECISION, {}),
  wording: v.optional(WORDING, {}),
  sample: v.optional(SAMPLE, {}),
  use: v.optional(USE, {}),
  sheets: SHEETS,
});
