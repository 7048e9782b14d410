import * as v from 'valibot';
import { GAIN, IMAGE_METRES } from '../photometry/bounds';
import { BATCH_READINGS } from '../procurement/batch/columns';
import { INSPECTION_LEVELS, USUAL_LEVEL } from '../procurement/lot/letter';
import { LISTED_AQLS, SEVERITIES } from '../procurement/lot/master';
import { SERIAL_MAX } from '../procurement/lot/serials';
import { COUNTINGS } from '../procurement/lot/verdict';
import { VIEWING_TASKS } from '../procurement/need/tasks';
import { DEFAULT_STANDARD } from '../procurement/wording/tender';
import { BATCH_UNITS } from '../sheets/batch/setup';
import { defaultRoom } from '../sheets/need';
import { TEXT_MAX } from '../sheets/setup/fields';
import { SPOT_REFERENCES } from '../sheets/spot/setup';
import { choice, fields, list, number, option, part, text, truth } from './fields';
import { maybe, needed, usually } from './setupfield';

export const FORMAT = 'light-template';
export const VERSION = 1;

/** More rooms than the need step takes are none of a template either. */
const MOST_ROOMS = 100;
/** A run sheet is 600 cells and some seconds: more units of one bid belong into a batch. */
export const MOST_RUNS = 24;
/** A paragraph for a tender; Excel takes 32 767 characters in a cell. */
const PARAGRAPH_MAX = 4000;

const room = defaultRoom();

const ROOM = fields({
  room: text(80, { min: 1 }),
  width: number(IMAGE_METRES),
  height: number(IMAGE_METRES),
  gain: v.optional(number(GAIN), room.gain),
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

export const METER = fields({
  name: usually('meter.name'),
  unit: usually('meter.unit'),
  range: usually('meter.range'),
  digit: usually('meter.digit'),
  calibratedOn: usually('meter.calibratedOn'),
  certificate: maybe('meter.certificate'),
  dueOn: maybe('meter.dueOn'),
  calibration: usually('meter.calibration'),
  corrections: v.optional(
    fields({
      white: usually('meter.corrections.white'),
      red: usually('meter.corrections.red'),
      green: usually('meter.corrections.green'),
      blue: usually('meter.corrections.blue'),
    }),
    {},
  ),
});

const IMAGE = v.variant(
  'shape',
  [
    option({
      shape: v.literal('rectangle'),
      known: needed('image.known'),
      length: needed('image.length'),
      unit: needed('image.unit'),
      across: needed('image.across'),
      down: needed('image.down'),
    }),
    option({
      shape: v.literal('four sides'),
      unit: needed('image.unit'),
      top: needed('image.top'),
      right: needed('image.right'),
      bottom: needed('image.bottom'),
      left: needed('image.left'),
      falling: needed('image.falling'),
      rising: needed('image.rising'),
    }),
  ],
  'an object with a "shape" that is "rectangle" or "four sides"',
);

/** What is measured and how: of a template, and of a run's set-up file. */
export const MEASURING = {
  image: v.optional(IMAGE),
  gain: usually('gain'),
  standard: usually('standard'),
  colour: usually('colour'),
  ambient: usually('ambient'),
  black: usually('black'),
  checkerboard: usually('checkerboard'),
  corners: usually('corners'),
  repeats: usually('repeats'),
};

/** What is known of the uncertainty, as half-widths. */
export const UNCERTAINTY = {
  meterClass: usually('uncertainty.meterClass'),
  ofReading: maybe('uncertainty.ofReading'),
  statement: usually('uncertainty.statement'),
  f1: maybe('uncertainty.f1'),
  f2: maybe('uncertainty.f2'),
  light: usually('uncertainty.light'),
  digits: maybe('uncertainty.digits'),
  spectral: v.optional(
    fields({
      white: maybe('uncertainty.spectral.white'),
      red: maybe('uncertainty.spectral.red'),
      green: maybe('uncertainty.spectral.green'),
      blue: maybe('uncertainty.spectral.blue'),
      black: maybe('uncertainty.spectral.black'),
    }),
  ),
  placing: maybe('uncertainty.placing'),
  repeatability: maybe('uncertainty.repeatability'),
  repeatabilityReadings: maybe('uncertainty.repeatabilityReadings'),
  meterCheck: maybe('uncertainty.meterCheck'),
  linearity: maybe('uncertainty.linearity'),
  room: maybe('uncertainty.room'),
  throwDistance: maybe('uncertainty.throwDistance'),
  sensorHeight: maybe('uncertainty.sensorHeight'),
  width: maybe('uncertainty.width'),
  height: maybe('uncertainty.height'),
  square: maybe('uncertainty.square'),
  ambient: maybe('uncertainty.ambient'),
  gain: maybe('uncertainty.gain'),
  other: maybe('uncertainty.other'),
};

/** By which rule is decided, and at which level of confidence. */
export const RULE = {
  rule: usually('uncertainty.rule'),
  level: usually('uncertainty.level'),
};

const DECISION = fields({
  ...RULE,
  leastPart: usually('rated.minimumFraction'),
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
  standard: v.optional(text(TEXT_MAX, { min: 1 }), DEFAULT_STANDARD),
  conditions: v.optional(list(text(500, { min: 1 }), 20), []),
  paragraphs: v.optional(PARAGRAPHS, {}),
});

const aql = v.picklist(LISTED_AQLS, `one of ${LISTED_AQLS.join(', ')}`);
const SAMPLE = fields({
  units: v.optional(number({ min: 2, max: 500_000, whole: true })),
  aql: v.optional(aql, 2.5),
  level: v.optional(choice(INSPECTION_LEVELS), USUAL_LEVEL),
  severity: v.optional(choice(SEVERITIES), 'normal'),
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
    option({ for: v.literal('rooms'), mode: usually('mode'), rated: rated() }),
    /** One for each unit of the drawn sample; the serials come when the template is applied. */
    option({
      for: v.literal('sample'),
      projector: usually('projector'),
      mode: usually('mode'),
      rated: rated(),
    }),
    option({
      for: v.literal('list'),
      rated: rated(),
      units: list(
        fields({
          projector: text(TEXT_MAX, { min: 1 }),
          serial: v.optional(text(SERIAL_MAX), ''),
          mode: usually('mode'),
          place: usually('place'),
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
