import { DECISION_RULES } from '../metrology/rules';
import { all, bad, chain, good, invalid, type Outcome, type Problem } from '../photometry/outcome';
import {
  BATCH_KEYS,
  BATCH_READINGS,
  BATCH_WORDS,
  type BatchReadings,
  countOf,
  fieldsOf,
  hasColour,
} from '../procurement/batch/columns';
import { type BatchTerms, batchRow } from '../procurement/batch/row';
import { OWN_LINES, SPREAD_LINES, spreadOf } from '../procurement/batch/terms';
import { gappedColumn } from './lists';
import { anyCells, type Cells, choice, column, number, type Param } from './params';
import { define, type Result } from './record';

const rows = () => ({
  serials: anyCells('serial numbers down a column; a line without one is left empty'),
  readings: anyCells(
    'readings as on the display, one row a unit: white, or white, red, green and blue one after the other',
  ),
  range: anyCells('range factor of each unit, down a column'),
  ambient: anyCells('ambient illuminance to take off (lx): one for all, or down a column'),
});
const shared = () => ({
  factors: column(
    'lux per unit of the display, corrections included, down a column: white, or white, red, green, blue',
    'number',
  ),
  limits: positives('least value of white, and of colour below it; empty where it is not judged', ''),
  uncertainty: anyCells(
    `${SPREAD_LINES.join('; ')}, down a column for white; beside it for colour, with ${OWN_LINES.join('; ')} below`,
  ),
  rule: choice('decision rule', 'DECISIONRULE', DECISION_RULES, DECISION_RULES[0]),
  lights: lights(),
});

interface Given {
  readonly serials: Cells;
  readonly readings: Cells;
  readonly range: Cells;
  readonly ambient: Cells;
  readonly factors: readonly number[];
  readonly limits: readonly (number | undefined)[];
  readonly uncertainty: Cells;
  readonly rule: BatchTerms['rule'];
  readonly lights: readonly number[] | undefined;
}

const SOURCE =
  'each row as LIGHT.OUTPUT, LIGHT.COLOUROUTPUT, LIGHT.UNIFORMITY and LIGHT.DECISION; U: JCGM 100:2008 eq. (10) and clause 6';

/** Which kind of batch a table of so many columns and factors is; every argument has to fit it. */
function kindOf(given: Given, kinds: readonly BatchReadings[]): Outcome<BatchReadings> {
  const { serials, readings, range, ambient, factors, limits, uncertainty, lights } = given;
  const width = Math.max(0, ...readings.map((row) => row.length));
  const kind = kinds.find((one) => countOf(one) === width && fieldsOf(one).length === factors.length);
  if (!kind || readings.some((row) => row.length !== width)) {
    const wanted = kinds.map((one) => `${countOf(one)} with ${count(fieldsOf(one).length, 'factor')}`);
    return bad(
      invalid(
        'shape',
        'readings',
        `The readings must have ${wanted.join(' or ')} in a row; they have ${width} with ${count(factors.length, 'factor')}.`,
      ),
    );
  }
  const rows = readings.length;
  const values = hasColour(kind) ? 2 : 1;
  const lines = SPREAD_LINES.length + (hasColour(kind) ? OWN_LINES.length : 0);
  const problems = [
    ...misfit('serials', serials, rows, 1),
    ...misfit('range', range, rows, 1),
    ...(ambient.length === 1 && ambient[0]!.length === 1 ? [] : misfit('ambient', ambient, rows, 1)),
    ...misfit(
      'limits',
      limits.map((limit) => [limit]),
      values,
      1,
    ),
    ...misfit('uncertainty', uncertainty, lines, values),
    ...notPositive('factors', factors),
    ...(lights
      ? [
          ...misfit(
            'lights',
            lights.map((light) => [light]),
            factors.length,
            1,
          ),
          ...notPositive('lights', lights),
        ]
      : []),
  ];
  return problems.length > 0 ? bad(...problems) : good(kind);
}

function notPositive(name: string, values: readonly number[]): Problem[] {
  return values.flatMap((value, i) =>
    value > 0
      ? []
      : [
          invalid(
            'out-of-bounds',
            `${name} in row ${i + 1}`,
            `The ${name} in row ${i + 1} must be greater than 0; it is ${value}${value === 0 ? ' (an empty cell counts as 0)' : ''}.`,
          ),
        ],
  );
}

function misfit(
  name: string,
  cells: readonly (readonly unknown[])[],
  rows: number,
  columns: number,
): Problem[] {
  const width = Math.max(0, ...cells.map((row) => row.length));
  if (cells.length === rows && width === columns) return [];
  return [
    invalid(
      'shape',
      name,
      `The ${name} must be ${rows} × ${columns} cells here; it is ${cells.length} × ${width}.`,
    ),
  ];
}

const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;

/** Left out by sheets of before, whose factors bear on ambient light alike. */
function lights(): Param<number[] | undefined> {
  const inner = column(
    'what of each factor corrects the projector’s light alone, down a column: spectral correction × factor for the sensor’s place; ambient, read without it, is multiplied with it; 1 if left out',
    'number',
  );
  return {
    ...inner,
    isOptional: true,
    parse: (raw, name) =>
      raw === null || raw === undefined || raw === '' ? good(undefined) : inner.parse(raw, name),
  };
}

/** A column of which a cell may be empty, but none below 0. */
function positives(description: string, unit: string): Param<(number | undefined)[]> {
  const inner = gappedColumn(description, unit);
  return {
    ...inner,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (values) => {
        const at = values.findIndex((value) => value !== undefined && value < 0);
        const where = `${name} in row ${at + 1}`;
        return at < 0
          ? good(values)
          : bad(invalid('negative', where, `The ${where} must not be negative; it is ${values[at]}.`));
      }),
  };
}

/** The whole table, one line a row, in the order of the sheet. */
function tableOf(
  given: Given,
  kinds: readonly BatchReadings[],
  rest: Pick<BatchTerms, 'area' | 'reference'>,
): Outcome<Result> {
  return chain(kindOf(given, kinds), (readings) => {
    const isColoured = hasColour(readings);
    const uncertainty = (at: number) => given.uncertainty.map((row) => row[at]);
    const spreads = all([
      spreadOf(uncertainty(0), 'white'),
      ...(isColoured ? [spreadOf(uncertainty(1), 'colour')] : []),
    ]);
    return chain(spreads, ([white, colour]) => {
      // Limits of 0 are how empty cells arrive.
      const limit = (at: number) => given.limits[at] || undefined;
      const terms: BatchTerms = {
        readings,
        factors: given.factors,
        ...(given.lights ? { lights: given.lights } : {}),
        limits: { white: limit(0), colour: isColoured ? limit(1) : undefined },
        white: white!,
        ...(colour ? { colour } : {}),
        rule: given.rule,
        ...rest,
      };
      const keys = BATCH_KEYS[readings];
      return good(
        given.readings.map((cells, i) => {
          const row = batchRow(terms, {
            serial: given.serials[i]![0],
            readings: cells,
            range: given.range[i]![0],
            ambient: given.ambient.length === 1 ? given.ambient[0]![0] : given.ambient[i]![0],
          });
          return keys.map((key) => row[key] ?? '');
        }),
      );
    });
  });
}

const NINE = BATCH_READINGS.filter((kind) => !kind.startsWith('centre'));
const CENTRE = BATCH_READINGS.filter((kind) => kind.startsWith('centre'));
const listed = (kind: BatchReadings) => BATCH_KEYS[kind].map((key) => BATCH_WORDS[key]).join('; ');

export const batchFunctions = [
  define({
    id: 'BATCH',
    summary:
      'Results of a whole batch as a table, one row a unit: state, light output with U, uniformity, decision; with colours their sum and ratio too.',
    params: {
      ...rows(),
      area: number('image area', 'm²', { moreThan: 0 }),
      ...shared(),
    },
    result: { kind: 'table', unit: 'lm' },
    formula: `white alone: ${listed(NINE[0]!)}. With colours: ${listed(NINE[1]!)}`,
    source: SOURCE,
    example: '=LIGHT.BATCH(A6:A65,K6:S65,J6:J65,X30,X20,X31:X31,X40:X40,X50:X55)',
    compute: ({ area, ...given }) => tableOf(given, NINE, { area, reference: {} }),
  }),
  define({
    id: 'BATCHCENTRE',
    summary:
      'Centre readings of a whole batch as parts of a reference unit’s, as a table, one row a unit; lumens only as an estimate from that unit’s full run.',
    params: {
      ...rows(),
      reference: positives(
        'of the reference unit, down a column: centre illuminance in white and in colour (lx), light output in white and in colour (lm); empty where not known',
        'lx, lm',
      ),
      ...shared(),
    },
    result: { kind: 'table', unit: 'part of the reference' },
    formula: `white alone: ${listed(CENTRE[0]!)}. With colours: ${listed(CENTRE[1]!)}`,
    source: 'common practice; says nothing of the rest of the image',
    example: '=LIGHT.BATCHCENTRE(A6:A65,K6:K65,J6:J65,X30,X33:X36,X31:X31,X40:X40,X50:X55)',
    compute: ({ reference, ...given }) => {
      const [white, colour, whiteOutput, colourOutput] = reference.map((value) => value || undefined);
      return tableOf(given, CENTRE, { area: 0, reference: { white, colour, whiteOutput, colourOutput } });
    },
  }),
];
