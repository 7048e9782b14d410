import { describe, expect, it } from 'vitest';
import type { RawCell } from '../../src/photometry/reading';
import {
  BATCH_KEYS,
  BATCH_READINGS,
  BATCH_WORDS,
  type BatchKey,
  type BatchReadings,
  countOf,
  fieldsOf,
} from '../../src/procurement/batch/columns';
import { type BatchCells, type BatchTerms, batchRow, type Spread } from '../../src/procurement/batch/row';
import { spreadOf } from '../../src/procurement/batch/terms';
import { goodOf, problemsOf } from '../photometry/outcome';

const NINE = 'nine points white';
const NINE_COLOUR = 'nine points in each colour';
const CENTRE = 'centre white';
const CENTRE_COLOUR = 'centre in each colour';

const nine = (reading: RawCell): RawCell[] => Array.from({ length: 9 }, () => reading);
/** U stated as 10 % of the result. */
const TENTH: Spread = { stated: 0.1, k: 0, shared: 0, digits: 0, ambient: 0, ambientPart: 0, own: [] };
const WHITE: Spread = { k: 2, shared: 0.02, digits: 0.3, ambient: 1, ambientPart: 0.3, own: [] };
const COLOUR: Spread = {
  k: 3,
  shared: 0.01,
  digits: 0.4,
  ambient: 2,
  ambientPart: 0.1,
  own: [0.1, 0.02, 0.5],
};

/** What all units share: 2 m², range factor 10, 10 lx of ambient light. */
const TERMS: BatchTerms = {
  readings: NINE_COLOUR,
  area: 2,
  factors: [1, 0.5, 2, 1],
  reference: {},
  limits: {},
  white: WHITE,
  colour: COLOUR,
  rule: 'guard band U: four outcomes',
};
const WHITES = [41, 42, 43, 44, 45, 46, 47, 48, 49];
/**
 * By hand, display × range factor × factor − ambient, in lx: white 400 to 480 in steps of 10, mean 440; red 18 × 5 − 10
 * = 80, green 15.5 × 20 − 10 = 300, blue 3 × 10 − 10 = 20. Times 2 m²: 880 lm; 160, 600 and 40, together 800 lm.
 */
const CELLS: BatchCells = {
  serial: 'RR-01',
  readings: [...WHITES, ...nine(18), ...nine(15.5), ...nine(3)],
  range: 10,
  ambient: 10,
};
/** White alone of that unit. */
const WHITE_TERMS: BatchTerms = { ...TERMS, readings: NINE, factors: [1], colour: undefined };
const WHITE_CELLS: BatchCells = { ...CELLS, readings: WHITES };

/** A reference unit of 400 lx white and 250 lx colour in its centre, by its full run of 1000 lm and 800 lm. */
const BY_REFERENCE: BatchTerms = {
  ...TERMS,
  readings: CENTRE_COLOUR,
  area: Number.NaN, // Where only the centre is read, nothing may come of the area.
  reference: { white: 400, colour: 250, whiteOutput: 1000, colourOutput: 800 },
};
/** 33 × 10 − 10 = 320 lx white; 10 × 5 − 10 = 40, 6.5 × 20 − 10 = 120 and 7 × 10 − 10 = 60, together 220 lx. */
const CENTRE_CELLS: BatchCells = { ...CELLS, readings: [33, 10, 6.5, 7] };
const CENTRE_WHITE: BatchTerms = { ...BY_REFERENCE, readings: CENTRE, factors: [1], colour: undefined };

const near = (value: number) => expect.closeTo(value, 9);
const rowOf = (
  terms: Partial<BatchTerms> = {},
  cells: Partial<BatchCells> = {},
  base = TERMS,
  unit = CELLS,
) => batchRow({ ...base, ...terms }, { ...unit, ...cells });
const whiteOf = (terms: Partial<BatchTerms> = {}, cells: Partial<BatchCells> = {}) =>
  rowOf(terms, cells, WHITE_TERMS, WHITE_CELLS);
const centreOf = (terms: Partial<BatchTerms> = {}, cells: Partial<BatchCells> = {}) =>
  rowOf(terms, cells, BY_REFERENCE, CENTRE_CELLS);
/** The unit with one reading changed. */
const changed = (readings: readonly RawCell[], at: number, to: RawCell) =>
  readings.map((cell, i) => (i === at ? to : cell));

describe('a complete unit, by hand, its results in the order of the sheet', () => {
  it.each<readonly [BatchReadings, BatchTerms, BatchCells, readonly (readonly [BatchKey, unknown])[]]>([
    [
      NINE,
      WHITE_TERMS,
      WHITE_CELLS,
      [
        ['state', 'complete'],
        ['white', near(880)],
        // 2 % of 880 lm; 0.3 × 10 = 3 lx of digits and 1 + 0.3 × 10 = 4 lx of ambient light are 5 lx, on 2 m² 10 lm.
        ['whiteU', near(2 * Math.sqrt(17.6 ** 2 + 10 ** 2))],
        ['uniformity', near(400 / 480)],
        ['decision', 'nothing judged'],
      ],
    ],
    [
      NINE_COLOUR,
      TERMS,
      CELLS,
      [
        ['state', 'complete'],
        ['white', near(880)],
        ['whiteU', near(2 * Math.sqrt(17.6 ** 2 + 10 ** 2))],
        ['colour', near(800)],
        // 1 % of 800; 4 lx and 2 + 0.1 × 10 = 3 lx are 5 lx, 10 lm; 10 % of 160, 2 % of 600 and 50 % of 40 lm.
        ['colourU', near(3 * Math.sqrt(8 ** 2 + 10 ** 2 + 16 ** 2 + 12 ** 2 + 20 ** 2))],
        ['ratio', near(800 / 880)],
        ['uniformity', near(400 / 480)],
        ['whiteVerdict', ''],
        ['colourVerdict', ''],
        ['decision', 'nothing judged'],
        ['red', near(160)],
        ['green', near(600)],
        ['blue', near(40)],
      ],
    ],
    [
      CENTRE,
      CENTRE_WHITE,
      { ...CENTRE_CELLS, readings: [33] },
      [
        ['state', 'complete'],
        ['white', near(0.8)], // 320 ÷ 400
        // 2 % of 0.8, and 5 lx of 400.
        ['whiteU', near(2 * Math.sqrt(0.016 ** 2 + 0.0125 ** 2))],
        ['decision', 'nothing judged'],
        ['whiteEstimate', near(800)],
      ],
    ],
    [
      CENTRE_COLOUR,
      BY_REFERENCE,
      CENTRE_CELLS,
      [
        ['state', 'complete'],
        ['white', near(0.8)],
        ['whiteU', near(2 * Math.sqrt(0.016 ** 2 + 0.0125 ** 2))],
        ['colour', near(0.88)], // 220 ÷ 250
        // 1 % of 0.88, and 5 lx of 250.
        ['colourU', near(3 * Math.sqrt(0.0088 ** 2 + 0.02 ** 2))],
        ['ratio', near(220 / 320)],
        ['whiteVerdict', ''],
        ['colourVerdict', ''],
        ['decision', 'nothing judged'],
        ['whiteEstimate', near(800)],
        ['colourEstimate', near(704)], // 0.88 × 800
      ],
    ],
  ])('%s', (readings, terms, cells, expected) => {
    expect(Object.entries(batchRow(terms, cells))).toEqual(expected);
    expect(cells.readings).toHaveLength(countOf(readings));
    expect(fieldsOf(readings)).toEqual(['white', 'red', 'green', 'blue'].slice(0, terms.factors.length));
  });

  it('a stated U is a part of the result, and nothing is added to it', () => {
    const row = rowOf({ white: { ...WHITE, stated: 0.05 }, colour: TENTH });
    expect(row).toMatchObject({ whiteU: near(44), colourU: near(80) });
  });
  it('colours without an uncertainty of their own add none', () => {
    expect(rowOf({ colour: { ...COLOUR, own: [] } }).colourU).toEqual(near(3 * Math.sqrt(8 ** 2 + 10 ** 2)));
  });
  it('without a spread of colour there is no U of colour, and what is judged by it is to be measured', () => {
    expect(rowOf({ colour: undefined, limits: { colour: 100 } })).toMatchObject({
      colour: near(800),
      colourU: '',
      colourVerdict: '',
      decision: 'to be measured',
    });
  });
  it('without the reference unit’s lumens nothing is estimated', () => {
    const row = centreOf({ reference: { white: 400, colour: 250 } });
    expect(row).toMatchObject({
      white: near(0.8),
      whiteEstimate: '',
      colour: near(0.88),
      colourEstimate: '',
    });
  });
  it('ambient light of 0 is a reading', () => {
    expect(whiteOf({}, { ambient: 0 })).toMatchObject({ state: 'complete', white: near(900) });
  });
});

describe('what a row says it lacks', () => {
  it.each(BATCH_READINGS)(
    '%s: a line nobody has begun is empty throughout, whatever an empty cell is',
    (readings) => {
      for (const empty of ['', ' ', null, undefined, 0]) {
        const terms = {
          ...BY_REFERENCE,
          readings,
          factors: TERMS.factors.slice(0, fieldsOf(readings).length),
        };
        const cells = Array.from({ length: countOf(readings) }, () => empty);
        const row = batchRow(terms, { serial: empty, readings: cells, range: 1, ambient: 0 });
        expect(Object.entries(row)).toEqual(BATCH_KEYS[readings].map((key) => [key, '']));
      }
    },
  );

  const eight = changed(WHITES, 4, '');
  it.each<readonly [Partial<BatchCells>, state: string, white: unknown]>([
    [{ readings: nine('') }, '0 of 9', '0 of 9'],
    [{ readings: eight }, '8 of 9', '8 of 9'],
    [{ readings: eight, serial: '' }, '8 of 9', '8 of 9'],
    [{ readings: changed(WHITES, 8, 'OL') }, '1 over range; 8 of 9', '8 of 9'],
    [{ readings: changed(WHITES, 0, -41) }, '1 not a reading; 8 of 9', '8 of 9'],
    [{ readings: changed(WHITES, 0, 'forty') }, '1 not a reading; 8 of 9', '8 of 9'],
    [{ readings: changed(WHITES, 0, Number.POSITIVE_INFINITY) }, '1 not a reading; 8 of 9', '8 of 9'],
    [{ readings: changed(WHITES, 0, { error: '#N/A' }) }, '1 not a reading; 8 of 9', '8 of 9'],
    [{ readings: ['OL', 'x', 'OL', ...WHITES.slice(3)] }, '1 not a reading; 2 over range; 6 of 9', '6 of 9'],
    // A line is begun by anything in it.
    [{ serial: '', readings: ['OL', 41, '', '', '', '', '', '', ''] }, '1 over range; 1 of 9', '1 of 9'],
    [{ serial: '', readings: ['x', 41, '', '', '', '', '', '', ''] }, '1 not a reading; 1 of 9', '1 of 9'],
    [
      { serial: '', readings: ['x', 'OL', '', '', '', '', '', '', ''] },
      '1 not a reading; 1 over range; 0 of 9',
      '0 of 9',
    ],
    [{ serial: '' }, 'no serial number', near(880)],
    [{ serial: 0 }, 'no serial number', near(880)],
    [{ serial: { error: '#REF!' } }, 'serial number is an error', near(880)],
    [{ serial: 17 }, 'complete', near(880)],
    [{ range: 0 }, 'no range factor', 'see state'],
    [{ range: '' }, 'no range factor', 'see state'],
    [{ range: '10' }, 'no range factor', 'see state'],
    [{ range: Number.POSITIVE_INFINITY }, 'no range factor', 'see state'],
    [{ ambient: '' }, 'no ambient reading', 'see state'],
    [{ ambient: '10' }, 'no ambient reading', 'see state'],
    [{ ambient: -0.1 }, 'ambient below 0', 'see state'],
    // 20 000 × 10 is 200 000 lx, twice full sunlight and the most that is believed.
    [{ readings: nine(20_000) }, 'complete', near(399_980)],
    [{ readings: changed(nine(20_000), 8, 20_000.1) }, 'above 200 000 lx', 'see state'],
    // The least reading is 410 lx.
    [{ ambient: 410 }, 'complete', near(80)],
    [{ ambient: 410.1 }, 'ambient exceeds a reading', 'see state'],
  ])('%j: %s', (cells, state, white) => {
    const row = whiteOf({ limits: { white: 10 } }, cells);
    expect(row).toMatchObject({ state, white });
    if (typeof white === 'string')
      expect(row).toMatchObject({ whiteU: '', uniformity: '', decision: 'to be measured' });
  });

  it('no light is a result, of which there is no part', () => {
    const dark = Array.from({ length: 36 }, (_, i) => (i < 9 ? 4 : 10));
    expect(rowOf({ factors: [1, 1, 1, 1] }, { readings: dark, ambient: 40 })).toMatchObject({
      state: 'complete',
      white: 0,
      uniformity: '',
      ratio: '',
      colour: near(360), // 3 × (100 − 40) lx × 2 m²
    });
  });

  it.each<readonly [at: number, to: RawCell, expected: Partial<Record<BatchKey, unknown>>]>([
    [0, '', { state: '35 of 36', white: '8 of 9', uniformity: '', colour: near(800), ratio: '' }],
    [
      9,
      'OL',
      { state: '1 over range; 35 of 36', white: near(880), red: '8 of 9', colour: '26 of 27', ratio: '' },
    ],
    [26, 0, { red: near(160), green: '8 of 9', blue: near(40), colour: '26 of 27' }],
    [35, 0, { red: near(160), green: near(600), blue: '8 of 9', colour: '26 of 27', colourU: '' }],
    // 40 000 is 200 000 lx in red (factor 0.5, range 10), 10 000 in green (2); 20 001 is too bright in blue (1).
    [9, 40_000, { state: 'complete', red: near((2 * (8 * 80 + 199_990)) / 9) }],
    [9, 40_001, { state: 'above 200 000 lx', red: 'see state', green: near(600), colour: 'see state' }],
    [18, 10_000, { state: 'complete' }],
    [18, 10_001, { state: 'above 200 000 lx', green: 'see state', blue: near(40), white: near(880) }],
    [27, 20_001, { state: 'above 200 000 lx', blue: 'see state', colour: 'see state', ratio: '' }],
    // 1.9 is 9.5 lx in red, below the ambient light of 10 lx.
    [
      17,
      1.9,
      { state: 'ambient exceeds a reading', red: 'see state', colour: 'see state', white: near(880) },
    ],
  ])('of four fields, reading %d as %j spoils its own field and what is made of it', (at, to, expected) => {
    expect(rowOf({}, { readings: changed(CELLS.readings, at, to) })).toMatchObject(expected);
  });

  it.each<readonly [Partial<BatchTerms>, Partial<BatchCells>, Partial<Record<BatchKey, unknown>>]>([
    [
      { reference: {} },
      {},
      {
        state: 'no reference unit',
        white: 'see state',
        whiteEstimate: '',
        colour: 'see state',
        ratio: near(220 / 320),
      },
    ],
    [
      { reference: { white: 400 } },
      {},
      { state: 'no reference unit', white: near(0.8), colour: 'see state', colourEstimate: '' },
    ],
    [
      { reference: { colour: 250 } },
      {},
      { state: 'no reference unit', white: 'see state', colour: near(0.88) },
    ],
    [
      { readings: CENTRE, factors: [1], reference: { white: 400 } },
      { readings: [33] },
      { state: 'complete', white: near(0.8), whiteEstimate: '' },
    ],
    [
      {},
      { readings: [33, 10, '', 7] },
      { state: '3 of 4', white: near(0.8), colour: '2 of 3', colourEstimate: '', ratio: '' },
    ],
    [{}, { readings: ['', 10, 6.5, 7] }, { state: '3 of 4', white: '0 of 1', colour: near(0.88), ratio: '' }],
    [{}, { readings: [33, 10, 6.5, 0.9] }, { state: 'ambient exceeds a reading', colour: 'see state' }],
    [
      {},
      { readings: [33, 10, 10_001, 7] },
      { state: 'above 200 000 lx', white: near(0.8), colour: 'see state' },
    ],
  ])('of a centre, %j and %j', (terms, cells, expected) => {
    expect(centreOf(terms, cells)).toMatchObject(expected);
  });
});

describe('decisions (ILAC-G8:09/2019, mirrored for a lower limit)', () => {
  // 880 lm with U of 88 lm: a pass from 880 − 88 = 792 lm down, a fail from above 880 + 88 = 968 lm.
  it.each<readonly [limit: number, BatchTerms['rule'], decision: string]>([
    [792, 'guard band U: four outcomes', 'pass'],
    [793, 'guard band U: four outcomes', 'conditional pass'],
    [880, 'guard band U: four outcomes', 'conditional pass'],
    [881, 'guard band U: four outcomes', 'conditional fail'],
    [968, 'guard band U: four outcomes', 'conditional fail'],
    [969, 'guard band U: four outcomes', 'fail'],
    [792, 'guard band U: pass or fail', 'pass'],
    [793, 'guard band U: pass or fail', 'fail'],
    [880, 'no guard band', 'pass'],
    [881, 'no guard band', 'fail'],
  ])('limit %d, %s: %s', (white, rule, decision) => {
    expect(whiteOf({ white: TENTH, limits: { white }, rule })).toMatchObject({ decision });
    const both = rowOf({ white: TENTH, colour: TENTH, limits: { white }, rule });
    expect(both).toMatchObject({ whiteVerdict: decision, colourVerdict: '', decision });
  });

  // White 880 ± 88 lm, colour 800 ± 80 lm; "missing": one reading of green is not there.
  it.each<
    readonly [white: number | undefined, colour: number | undefined, missing: boolean, string, string, string]
  >([
    [792, 720, false, 'pass', 'pass', 'pass'],
    [792, 750, false, 'pass', 'conditional pass', 'conditional pass'],
    [850, 720, false, 'conditional pass', 'pass', 'conditional pass'],
    [900, 750, false, 'conditional fail', 'conditional pass', 'conditional fail'],
    [792, 850, false, 'pass', 'conditional fail', 'conditional fail'],
    [900, 900, false, 'conditional fail', 'fail', 'fail'],
    [1000, 720, false, 'fail', 'pass', 'fail'],
    [undefined, 850, false, '', 'conditional fail', 'conditional fail'],
    [1000, undefined, false, 'fail', '', 'fail'],
    [undefined, undefined, false, '', '', 'nothing judged'],
    [792, 720, true, 'pass', '', 'to be measured'],
    [1000, 720, true, 'fail', '', 'fail'],
    [792, undefined, true, 'pass', '', 'pass'],
  ])(
    'limits %s and %s, colour missing %s: %s, %s, so %s',
    (white, colour, missing, first, second, decision) => {
      const limits = {
        ...(white === undefined ? {} : { white }),
        ...(colour === undefined ? {} : { colour }),
      };
      const readings = missing ? changed(CELLS.readings, 20, '') : CELLS.readings;
      expect(rowOf({ white: TENTH, colour: TENTH, limits }, { readings })).toMatchObject({
        whiteVerdict: first,
        colourVerdict: second,
        decision,
      });
    },
  );
});

describe('the table that tells how uncertain rows are', () => {
  const LINES: readonly RawCell[] = ['', 2, 0.02, 0.3, 1, 0.3, 0.1, 0.2, 0.5];
  const put = (row: number, cell: RawCell) => changed(LINES, row - 1, cell);

  it('is read line by line; white does without those of red, green and blue', () => {
    const shared = { k: 2, shared: 0.02, digits: 0.3, ambient: 1, ambientPart: 0.3 };
    expect(goodOf(spreadOf(LINES, 'colour'))).toEqual({ ...shared, own: [0.1, 0.2, 0.5] });
    expect(goodOf(spreadOf(LINES, 'white'))).toEqual({ ...shared, own: [] });
    expect(goodOf(spreadOf(LINES.slice(0, 6), 'white'))).toEqual({ ...shared, own: [] });
    expect(goodOf(spreadOf(put(1, 0), 'white'))).toEqual({ ...shared, own: [] });
  });
  it('a stated U stands for all of it', () => {
    for (const of of ['white', 'colour'] as const)
      expect(goodOf(spreadOf([0.08], of))).toEqual({ ...TENTH, stated: 0.08 });
  });
  it('0 is a number in all lines but that of k', () => {
    expect(goodOf(spreadOf(['', 1, 0, 0, 0, 0, 0, 0, 0], 'colour'))).toEqual({
      ...{ k: 1, shared: 0, digits: 0, ambient: 0, ambientPart: 0 },
      own: [0, 0, 0],
    });
  });

  // Where, what was expected and what came; the words are ours (regression).
  it.each<readonly [row: number, RawCell, 'white' | 'colour', code: string, where: string, message: string]>([
    [
      1,
      '0.08',
      'white',
      'not-a-number',
      'white in row 1 (stated U)',
      'must be a number greater than 0, or empty; it is "0.08".',
    ],
    [
      1,
      -0.08,
      'colour',
      'not-a-number',
      'colour in row 1 (stated U)',
      'must be a number greater than 0, or empty; it is "-0.08".',
    ],
    [2, '', 'white', 'missing', 'white in row 2 (k)', 'is missing.'],
    [3, null, 'white', 'missing', 'white in row 3 (shared u)', 'is missing.'],
    [9, undefined, 'colour', 'missing', 'colour in row 9 (blue)', 'is missing.'],
    [
      4,
      'few',
      'white',
      'not-a-number',
      'white in row 4 (digits)',
      'must be a number of at least 0; it is "few".',
    ],
    [
      5,
      -0.1,
      'white',
      'not-a-number',
      'white in row 5 (ambient)',
      'must be a number of at least 0; it is "-0.1".',
    ],
    [
      6,
      { error: '#DIV/0!' },
      'white',
      'not-a-number',
      'white in row 6 (part of ambient)',
      'must be a number of at least 0; it is the error #DIV/0!.',
    ],
    [
      7,
      Number.POSITIVE_INFINITY,
      'colour',
      'not-a-number',
      'colour in row 7 (red)',
      'must be a number of at least 0; it is "Infinity".',
    ],
    [
      8,
      '0.1',
      'colour',
      'not-a-number',
      'colour in row 8 (green)',
      'must be a number of at least 0; it is "0.1".',
    ],
    [
      2,
      0,
      'colour',
      'out-of-bounds',
      'colour in row 2 (k)',
      'must be greater than 0; it is 0 (an empty cell counts as 0).',
    ],
  ])('row %d as %j, %s: %s', (row, cell, of, code, where, message) => {
    expect(problemsOf(spreadOf(put(row, cell), of))).toMatchObject([
      { code, where: `uncertainty of ${where}`, message: `The uncertainty of ${where} ${message}` },
    ]);
  });
});

it('results are named in words (regression)', () => {
  expect(BATCH_WORDS).toEqual({
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
  });
});
