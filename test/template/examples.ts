import type { TemplateFile } from '../../src/template/template';

/** Templates of an invented regional library network. */
export const SMALL: TemplateFile = {
  format: 'light-template',
  version: 1,
  title: 'Reading rooms (invented)',
  rooms: [
    { room: 'Reading room 3 (invented)', width: 2, height: 1.25, ambient: 50 },
    { room: '=1+1', width: 3, height: 1.7, ambient: 20, task: 'analytical decision making', ageing: 0.6 },
  ],
  sheets: { need: {}, offers: { lines: 3 }, runs: { for: 'rooms', rated: 'chosen offer' }, comparison: true },
};

/** Every field there is. */
export const FULL: TemplateFile = {
  format: 'light-template',
  version: 1,
  title: 'Network, phase 2 (invented)',
  note: 'Two paragraphs.\n\nThe second one.',
  rooms: [
    {
      room: 'Hall (invented)',
      width: 4,
      height: 2.25,
      gain: 0.9,
      ambient: 15,
      task: 'full-motion video',
      contrast: 40,
      ownContrast: 1500,
      luminance: 60,
      ageing: 0.65,
      mode: 0.9,
      colourPart: 0.95,
    },
  ],
  reserves: { ageing: 0.7, mode: 0.8, colourPart: 1 },
  meter: {
    name: 'Meter 3 (invented)',
    unit: 'lx',
    range: 10,
    digit: 0.1,
    calibratedOn: '2026-02-03',
    calibration: 1.02,
    corrections: { white: 1, red: 1.04, green: 0.99, blue: 1.11 },
  },
  measuring: {
    image: { shape: 'rectangle', known: 'diagonal', length: 100, unit: 'in', across: 16, down: 9 },
    gain: 1,
    standard: 'BT.2020',
    colour: 'full fields',
    ambient: 'once',
    black: false,
    checkerboard: true,
    corners: false,
    repeats: 2,
  },
  uncertainty: {
    meterClass: 'B',
    ofReading: 0.03,
    digits: 4,
    spectral: { white: 0.01, red: 0.04 },
    width: 3,
    height: 3,
    square: 0.002,
    ambient: 0.2,
    other: 0,
  },
  decision: { rule: 'no guard band', level: 0.95, leastPart: 0.85, counting: 'strict' },
  wording: {
    standard: 'ISO/IEC 21118:2020, Annex B',
    conditions: ['The room is dark.'],
    paragraphs: { method: 'As agreed.\nBy both.', lot: 'All units.' },
  },
  sample: { units: 60, aql: 2.5 },
  use: { years: 6, hoursPerYear: 1200, tariff: 0.31, currency: 'EUR' },
  sheets: {
    need: { spare: 2 },
    offers: { lines: 4 },
    runs: {
      for: 'list',
      rated: 'chosen offer',
      units: [
        { projector: 'Type 1 (invented)', serial: '0042', mode: 'Bright', place: 'Hillside' },
        { projector: 'Type 2 (invented)' },
      ],
    },
    comparison: true,
    spot: { reference: 'best', ambient: false },
    batch: { readings: 'centre white', lines: 25, rated: 'typed later' },
    acceptance: { least: 'chosen offer' },
    certificates: true,
    ageing: 'each unit',
    overview: true,
  },
};

/** Changes to a template that every reader must refuse, with what the refusal says. */
export const REFUSED: readonly (readonly [string, (template: TemplateFile) => unknown, RegExp])[] = [
  ['no format', ({ format, ...rest }) => rest, /"format" must be "light-template"; it is missing/],
  ['another format', (t) => ({ ...t, format: 'list' }), /must be "light-template"; it is "list"/],
  ['a newer version', (t) => ({ ...t, version: 2 }), /version 2, made by a newer program/],
  ['version as text', (t) => ({ ...t, version: '1' }), /^version: it must be 1; it is "1"/],
  [
    'no title',
    (t) => ({ ...t, title: '' }),
    /^title: it must be a text of 1 to 80 characters on one line.*it is ""/,
  ],
  ['a long title', (t) => ({ ...t, title: 'x'.repeat(81) }), /^title: .*1 to 80 characters/],
  ['no sheets', ({ sheets, ...rest }) => rest, /^sheets: it is missing/],
  [
    'an unknown field',
    (t) => ({ ...t, macro: 'run' }),
    /^macro: there is no such field; known here: format, version/,
  ],
  [
    'an unknown field deep inside',
    (t) => ({ ...t, sheets: { ...t.sheets, need: { spare: 1, script: 1 } } }),
    /^sheets\.need\.script: there is no such field; known here: spare/,
  ],
  [
    'a room without a width',
    (t) => ({ ...t, rooms: [...t.rooms!, { room: 'A', height: 1 }] }),
    /^rooms\[\d\]\.width: it is missing/,
  ],
  [
    'a width in words',
    (t) => ({ ...t, rooms: [{ room: 'A', width: 'wide', height: 1 }] }),
    /^rooms\[0\]\.width: it must be a number from 0\.1 to 60; it is "wide"/,
  ],
  [
    'a number that overflows',
    (t) => ({ ...t, rooms: [{ room: 'A', width: Number.POSITIVE_INFINITY, height: 1 }] }),
    /^rooms\[0\]\.width: it must be a number/,
  ],
  [
    'too many rooms',
    (t) => ({ ...t, rooms: Array.from({ length: 101 }, () => ({ room: 'A', width: 1, height: 1 })) }),
    /^rooms: it must be a list of at most 100; it is a list/,
  ],
  [
    'a text with a line feed where one line is due',
    (t) => ({ ...t, title: 'two\nlines' }),
    /^title: .*on one line/,
  ],
  ['a text that hides its order', (t) => ({ ...t, title: 'abc\u202edcba' }), /without invisible characters/],
  ['half a pair', (t) => ({ ...t, title: 'abc\ud83d' }), /without invisible characters/],
  ['a control character', (t) => ({ ...t, note: 'a\u0000b' }), /^note: .*without invisible characters/],
  [
    'a list for an object',
    (t) => ({ ...t, sheets: [] }),
    /^sheets: it must be an object with fields; it is a list/,
  ],
  [
    'an object for a list',
    (t) => ({ ...t, rooms: { length: 1 } }),
    /^rooms: it must be a list of at most 100; it is an object/,
  ],
  [
    'a rule that is none',
    (t) => ({ ...t, decision: { rule: 'always pass' } }),
    /^decision\.rule: it must be one of "guard band U: four outcomes".*it is "always pass"/,
  ],
  [
    'an AQL between the plans',
    (t) => ({ ...t, sample: { aql: 3 } }),
    /^sample\.aql: it must be one of 0\.01, .*it is 3/,
  ],
  [
    'runs of nothing known',
    (t) => ({ ...t, sheets: { ...t.sheets, runs: { for: 'ever' } } }),
    /^sheets\.runs(\.for)?: it must be an object with a "for" that is "rooms", "sample" or "list"/,
  ],
  [
    'a thousand runs',
    (t) => ({
      ...t,
      sheets: { runs: { for: 'list', units: Array.from({ length: 1000 }, () => ({ projector: 'A' })) } },
    }),
    /^sheets\.runs\.units: it must be a list of 1 to 24; it is a list/,
  ],
];
