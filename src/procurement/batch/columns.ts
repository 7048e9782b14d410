/** What is read of every unit of a batch. */
export const BATCH_READINGS = [
  'nine points white',
  'nine points in each colour',
  'centre white',
  'centre in each colour',
] as const;
export type BatchReadings = (typeof BATCH_READINGS)[number];

/** Fields in the order of a row's readings. */
export const BATCH_FIELDS = ['white', 'red', 'green', 'blue'] as const;
export type BatchField = (typeof BATCH_FIELDS)[number];

export const hasColour = (readings: BatchReadings) => readings.endsWith('in each colour');
export const isCentre = (readings: BatchReadings) => readings.startsWith('centre');

/** Readings a field has: nine points, or the centre alone. */
export const pointsOf = (readings: BatchReadings): number => (isCentre(readings) ? 1 : 9);
export const fieldsOf = (readings: BatchReadings): readonly BatchField[] =>
  hasColour(readings) ? BATCH_FIELDS : ['white'];
/** Readings of one unit. */
export const countOf = (readings: BatchReadings): number => pointsOf(readings) * fieldsOf(readings).length;

/** One result of a row. `white` and `colour` are lumens, or parts of the reference unit where only the centre is read. */
export type BatchKey =
  | 'state'
  | 'white'
  | 'whiteU'
  | 'colour'
  | 'colourU'
  | 'ratio'
  | 'uniformity'
  | 'whiteVerdict'
  | 'colourVerdict'
  | 'decision'
  | 'red'
  | 'green'
  | 'blue'
  | 'whiteEstimate'
  | 'colourEstimate';

/** Results of a row in the order in which the sheet and the function give them. */
export const BATCH_KEYS: Readonly<Record<BatchReadings, readonly BatchKey[]>> = {
  'nine points white': ['state', 'white', 'whiteU', 'uniformity', 'decision'],
  'nine points in each colour': [
    'state',
    'white',
    'whiteU',
    'colour',
    'colourU',
    'ratio',
    'uniformity',
    'whiteVerdict',
    'colourVerdict',
    'decision',
    'red',
    'green',
    'blue',
  ],
  'centre white': ['state', 'white', 'whiteU', 'decision', 'whiteEstimate'],
  'centre in each colour': [
    'state',
    'white',
    'whiteU',
    'colour',
    'colourU',
    'ratio',
    'whiteVerdict',
    'colourVerdict',
    'decision',
    'whiteEstimate',
    'colourEstimate',
  ],
};

/** Results in words, as the help lists them. */
export const BATCH_WORDS: Readonly<Record<BatchKey, string>> = {
  state: 'state',
  white: 'white',
  whiteU: 'U of white',
  colour: 'colour',
  colourU: 'U of colour',
  ratio: 'colour to white',
  uniformity: 'uniformity',
  whiteVerdict: 'decision on white',
  colourVerdict: 'decision on colour',
  decision: 'decision on the unit',
  red: 'red',
  green: 'green',
  blue: 'blue',
  whiteEstimate: 'estimate of white, lm',
  colourEstimate: 'estimate of colour, lm',
};

/** What rows say; the plain formulas say the same. */
export const SAYS = {
  complete: 'complete',
  noSerial: 'no serial number',
  badSerial: 'serial number is an error',
  noRange: 'no range factor',
  noAmbient: 'no ambient reading',
  badAmbient: 'ambient below 0',
  noReference: 'no reference unit',
  tooBright: 'above 200 000 lx',
  ambientExceeds: 'ambient exceeds a reading',
  seeSetup: 'see set-up',
  seeState: 'see state',
  noLimit: 'nothing judged',
  toMeasure: 'to be measured',
  notReading: 'not a reading',
  over: 'over range',
} as const;
