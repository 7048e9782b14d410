import { GRID_NAMES } from '../../photometry/points';
import {
  BATCH_KEYS,
  type BatchField,
  type BatchKey,
  type BatchReadings,
  fieldsOf,
  isCentre,
  pointsOf,
} from '../../procurement/batch/columns';
import { SERIAL_MAX } from '../../procurement/lot/serials';
import { cellName, columnName } from '../address';
import type { PlanBuilder } from '../builder';
import { dayNumber } from '../days';
import { stemOf } from '../names/stem';
import { AGREE, DIFFER, PLAIN_ONLY, sameNumbers } from '../phrases/agree';
import type { PlanCell, Role } from '../plan';
import { FORMAT } from '../run/layout';
import { validateRanges, validateReadings } from '../run/readings';
import { FIRST_DATE, TEXT_MAX } from '../setup/fields';
import { RED, standOf } from '../style';
import { type RowAt, RowFormulas, readingKey } from './formulas';
import type { BatchSetup, BatchUnit } from './setup';

/** Row of the column headings; their units stand below, the first unit below those. */
export const HEAD_ROW = 5;
export const FIRST_ROW = HEAD_ROW + 2;

/**
 * Lines that one call of the function computes: when one of them changes, the program hands all of these over anew,
 * and the page stands still until they are computed.
 */
const BLOCK_LINES = 200;

/** Stand for the number of the row, and of the first row of its block, in a formula that every row has. */
const ROW = '\u0000';
const BLOCK = '\u0001';

/** A column of the table. */
interface TableColumn {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly width: number;
  readonly role: Role;
  readonly format?: string;
  readonly value?: (unit: BatchUnit) => string | number | undefined;
  /** Formula without "=". */
  readonly formula?: string;
}

/** How a result is shown. */
interface Look {
  readonly label: string;
  readonly unit: string;
  readonly width: number;
  readonly format: string;
  /** Name of the column's cells. */
  readonly name: string;
}

function lookOf(key: BatchKey, readings: BatchReadings): Look {
  const centre = isCentre(readings);
  const lumens = (label: string, name: string): Look => ({
    label,
    unit: 'lm',
    width: 11,
    format: FORMAT.lumens,
    name,
  });
  const part = (label: string, name: string): Look => ({
    label,
    unit: 'of the reference',
    width: 14,
    format: FORMAT.percent,
    name,
  });
  const words = (label: string, name: string, width = 16): Look => ({
    label,
    unit: '',
    width,
    format: FORMAT.general,
    name,
  });
  const looks: Readonly<Record<BatchKey, Look>> = {
    state: words('State', 'UnitState', 24),
    white: centre ? part('White at the centre', 'UnitWhitePart') : lumens('White', 'UnitWhite'),
    whiteU: centre ? part('U of white', 'UnitWhitePartU') : lumens('U of white', 'UnitWhiteU'),
    colour: centre ? part('Colour at the centre', 'UnitColourPart') : lumens('Colour', 'UnitColour'),
    colourU: centre ? part('U of colour', 'UnitColourPartU') : lumens('U of colour', 'UnitColourU'),
    ratio: { label: 'Colour to white', unit: '', width: 9, format: FORMAT.ratio, name: 'UnitRatio' },
    uniformity: {
      label: 'Uniformity',
      unit: 'min ÷ max',
      width: 11,
      format: FORMAT.percent,
      name: 'UnitUniformity',
    },
    whiteVerdict: words('Decision, white', 'WhiteDecision'),
    colourVerdict: words('Decision, colour', 'ColourDecision'),
    decision: words(fieldsOf(readings).length > 1 ? 'Decision, unit' : 'Decision', 'UnitDecision'),
    red: lumens('Red', 'UnitRed'),
    green: lumens('Green', 'UnitGreen'),
    blue: lumens('Blue', 'UnitBlue'),
    whiteEstimate: { ...lumens('White, estimated', 'UnitWhiteEstimate'), unit: 'lm, estimate' },
    colourEstimate: { ...lumens('Colour, estimated', 'UnitColourEstimate'), unit: 'lm, estimate' },
  };
  return looks[key];
}

const LETTER: Readonly<Record<BatchField, string>> = { white: 'W', red: 'R', green: 'G', blue: 'B' };

/** Where the parts of the table stand. */
export interface PlacedTable {
  readonly first: number;
  readonly last: number;
  /** Columns, counted from 0: the last one to print, and the first one to the right of the table. */
  readonly lastPrinted: number;
  readonly next: number;
  readonly widths: Readonly<Record<string, number>>;
}

/** One row a unit: who, results, readings, and the same results by one function for each block of rows. */
export function putTable(b: PlanBuilder, setup: BatchSetup): PlacedTable {
  const { readings, ambient } = setup;
  const isByRow = ambient === 'by row';
  const keys = BATCH_KEYS[readings];
  const [first, last] = [FIRST_ROW, FIRST_ROW + setup.lines - 1];
  const columns = columnsOf(setup);
  const place = new Map(columns.map(({ key }, i) => [key, i]));
  const letter = (key: string) => columnName(place.get(key)!);
  const range = (from: string, to = from) => `${letter(from)}${first}:${letter(to)}${last}`;
  const atRow =
    (row: string): RowAt =>
    (from, to = from) =>
      from === to ? `${letter(from)}${row}` : `${letter(from)}${row}:${letter(to)}${row}`;

  columns.forEach((column, i) => {
    const align = standOf(column);
    const stand = align ? { align } : {};
    b.put(cellName(HEAD_ROW - 1, i), { role: 'head', value: column.label, ...stand });
    b.put(cellName(HEAD_ROW, i), { role: 'unit', value: column.unit, ...stand });
  });
  b.height(HEAD_ROW, 30);
  const anchor = `$${letter('by:state')}$${BLOCK}`;
  const blockOf = (row: number) => row - ((row - first) % BLOCK_LINES);
  const endOf = (block: number) => Math.min(block + BLOCK_LINES - 1, last);
  // Every formula speaks of its own row only: it is made once, and the row put in.
  const at = atRow(ROW);
  const formulas = new RowFormulas(readings, isByRow, at);
  const makers = columns.map((column) => {
    const { key, role, format, value } = column;
    const align = standOf(column);
    const look = { role, ...(format ? { format } : {}), ...(align ? { align } : {}) };
    const parts = templateOf(key)?.split(ROW);
    return (row: number): PlanCell => {
      const block = blockOf(row);
      if (parts) return { ...look, formula: `=${parts.join(String(row)).replaceAll(BLOCK, String(block))}` };
      if (key === 'by:state' && row === block) return { ...look, formula: `=${call(block, endOf(block))}` };
      const unit = setup.units[row - first];
      const typed = unit ? value?.(unit) : key === 'range' ? setup.meter.range : undefined;
      return typed === undefined || typed === '' ? look : { ...look, value: typed };
    };
  });
  for (let row = first; row <= last; row++) {
    makers.forEach((cell, i) => {
      b.putAt(row - 1, i, cell(row));
    });
  }
  function templateOf(key: string): string | undefined {
    if (keys.includes(key as BatchKey)) return formulas.of(key as BatchKey);
    if (key === 'agree') return agreement(keys, at, anchor);
    return key === 'ambientLux' ? formulas.ambientLux() : undefined;
  }
  function call(from: number, to: number): string {
    const cells = (one: string, end = one) => `${letter(one)}${from}:${letter(end)}${to}`;
    const points = pointsOf(readings);
    const typed = cells(readingKey('white', 0), readingKey(fieldsOf(readings).at(-1)!, points - 1));
    const dark = isByRow ? cells('ambientLux') : 'AmbientLux';
    return callOf(readings, [cells('serial'), typed, cells('range'), dark]);
  }
  for (let block = first; block <= last; block += BLOCK_LINES)
    b.fill(`A${block}:${columnName(columns.length - 1)}${endOf(block)}`);
  putNames(b, setup, range);
  putRules(b, setup, range);
  return {
    first,
    last,
    lastPrinted: place.get('source')!,
    next: columns.length,
    widths: Object.fromEntries(columns.map(({ width }, i) => [columnName(i), width])),
  };
}

function columnsOf({ readings, ambient, meter }: BatchSetup): TableColumn[] {
  const keys = BATCH_KEYS[readings];
  const fields = fieldsOf(readings);
  const result = (key: BatchKey): TableColumn => {
    const { label, unit, width, format } = lookOf(key, readings);
    const isText = format === FORMAT.general;
    return { key, label, unit, width, format, role: isText ? 'check' : 'figure' };
  };
  const reading = (field: BatchField, point: number): TableColumn => ({
    key: readingKey(field, point),
    label: isCentre(readings) ? stemOf(field) : `${LETTER[field]} ${point + 1}`,
    unit: isCentre(readings) ? 'centre' : GRID_NAMES[point]!,
    width: 12,
    role: 'reading',
    format: FORMAT.general,
  });
  return [
    {
      key: 'serial',
      label: 'Serial number',
      unit: 'one unit a row',
      width: 20,
      role: 'input',
      format: FORMAT.text,
      value: ({ serial }) => serial,
    },
    {
      key: 'place',
      label: 'Place',
      unit: '',
      width: 22,
      role: 'input',
      format: FORMAT.text,
      value: ({ place }) => place,
    },
    {
      key: 'hours',
      label: 'Run time',
      unit: 'h',
      width: 9,
      role: 'input',
      format: '#,##0',
      value: ({ hours }) => hours,
    },
    {
      key: 'date',
      label: 'Date',
      unit: '',
      width: 11,
      role: 'input',
      format: FORMAT.date,
      value: ({ date }) => (date ? dayNumber(date) : undefined),
    },
    ...keys.map(result),
    { key: 'agree', label: 'the two', unit: 'plain and LIGHT', width: 15, role: 'check' },
    { key: 'source', label: 'Where from, remarks', unit: '', width: 34, role: 'input', format: FORMAT.text },
    {
      key: 'range',
      label: 'Range factor',
      unit: '×',
      width: 8,
      role: 'factor',
      format: FORMAT.factor,
      value: () => meter.range,
    },
    ...(ambient === 'by row'
      ? ([
          {
            key: 'ambient',
            label: 'Ambient',
            unit: 'display at × 1',
            width: 13,
            role: 'reading',
            format: FORMAT.general,
          },
          { key: 'ambientLux', label: 'Ambient', unit: 'lx', width: 9, role: 'derived', format: FORMAT.lux },
        ] as const)
      : []),
    ...fields.flatMap((field) =>
      Array.from({ length: pointsOf(readings) }, (_, point) => reading(field, point)),
    ),
    ...keys.map((key): TableColumn => {
      const { label, width, format } = lookOf(key, readings);
      return {
        key: `by:${key}`,
        label,
        unit: `LIGHT.${functionOf(readings)}`,
        width: Math.max(width, isCentre(readings) ? 19 : 13),
        format,
        role: 'called',
      };
    }),
  ];
}

const functionOf = (readings: BatchReadings) => (isCentre(readings) ? 'BATCHCENTRE' : 'BATCH');

/** The one function for a block of rows, over all of which it spills. */
function callOf(readings: BatchReadings, ofRows: readonly string[]): string {
  const rest = 'DisplayFactors,Limits,SpreadTerms,DecisionRule,LightFactors';
  return `LIGHT.${functionOf(readings)}(${ofRows.join(',')},${isCentre(readings) ? 'ReferenceTerms' : 'ImageArea'},${rest})`;
}

/** Whether the plain results of a row and the function's are the same, in words. */
function agreement(keys: readonly BatchKey[], at: RowAt, anchor: string): string {
  const same = keys.map((key) => {
    const [plain, own] = [at(key), at(`by:${key}`)];
    // As texts: one engine does not always take an empty cell for an empty text.
    const equal = `${plain}&""=${own}&""`;
    if (isWords(key)) return equal;
    return `IF(COUNT(${plain},${own})=2,${sameNumbers(own, plain)},${equal})`;
  });
  const said = (word: string) => `IF(LEN(${at('state')})=0,"","${word}")`;
  return `IF(ISERROR(${anchor}),${said(PLAIN_ONLY)},IF(AND(${same.join(',')}),${said(AGREE)},"${DIFFER}"))`;
}

const isWords = (key: BatchKey) => ['state', 'whiteVerdict', 'colourVerdict', 'decision'].includes(key);

type RangeOf = (from: string, to?: string) => string;

function putNames(b: PlanBuilder, { readings, ambient }: BatchSetup, range: RangeOf): void {
  const points = pointsOf(readings);
  const fields = fieldsOf(readings);
  b.filter(range('serial', 'agree').replace(/\d+/, String(FIRST_ROW - 1)));
  b.name('Serials', range('serial'), 'Serial numbers, one a row')
    .name('UnitPlaces', range('place'), 'Places')
    .name('UnitHours', range('hours'), 'Run time of the light source, h')
    .name('UnitDates', range('date'), 'Dates of the readings')
    .name('UnitRemark', range('source'), 'Where readings came from, and remarks')
    .name('RangeFactors', range('range'), 'Range factor of each row')
    .name('Agreement', range('agree'), 'Whether plain formulas and function agree, row by row');
  for (const key of BATCH_KEYS[readings]) {
    const { name, label, unit } = lookOf(key, readings);
    b.name(name, range(key), unit ? `${label}, ${unit}` : label);
  }
  if (ambient === 'by row') {
    b.name('AmbientReadings', range('ambient'), 'Ambient light: numbers on the display at range factor 1');
    b.name('AmbientLux', range('ambientLux'), 'Ambient illuminance of each row, lx');
  }
  for (const field of fields) {
    const cells = range(readingKey(field, 0), readingKey(field, points - 1));
    b.name(`${stemOf(field)}Readings`, cells, `${stemOf(field)}: numbers on the display, one row a unit`);
  }
  b.name(
    'Readings',
    range(readingKey('white', 0), readingKey(fields.at(-1)!, points - 1)),
    'All numbers on the display, one row a unit',
  );
  b.name(
    'FunctionTable',
    range(`by:${BATCH_KEYS[readings][0]}`, `by:${BATCH_KEYS[readings].at(-1)}`),
    'Results by the function, block by block',
  );
}

function putRules(b: PlanBuilder, { readings, ambient }: BatchSetup, range: RangeOf): void {
  const ask = (
    key: string,
    rule: Parameters<PlanBuilder['validate']>[0]['rule'],
    title: string,
    why: string,
    refusal: string,
  ) =>
    b.validate({
      range: range(key),
      rule,
      prompt: { title, message: why },
      refusal: { title, message: refusal, style: 'stop' },
    });
  ask(
    'serial',
    { type: 'length', max: SERIAL_MAX },
    'Serial number',
    'From the type plate, each once. It is kept as text.',
    `At most ${SERIAL_MAX} characters.`,
  );
  ask(
    'place',
    { type: 'length', max: TEXT_MAX },
    'Place',
    'Where the unit hangs or was measured.',
    `At most ${TEXT_MAX} characters.`,
  );
  ask(
    'hours',
    { type: 'number', min: 0, max: 1_000_000 },
    'Run time',
    'Hours of the light source, from the unit’s menu.',
    'Hours from 0 to 1 000 000, or nothing.',
  );
  ask(
    'date',
    { type: 'date', min: FIRST_DATE },
    'Date',
    'The day of the readings.',
    `A date from ${FIRST_DATE} on, or nothing.`,
  );
  ask(
    'source',
    { type: 'length', max: 500 },
    'Where from, remarks',
    'Where the readings came from, and what a reader must know of this unit.',
    'At most 500 characters.',
  );
  validateRanges(b, range('range'));
  if (ambient === 'by row') validateReadings(b, range('ambient'), 'Ambient, light blocked');
  const points = pointsOf(readings);
  for (const field of fieldsOf(readings)) {
    validateReadings(b, range(readingKey(field, 0), readingKey(field, points - 1)), stemOf(field));
    b.scale({
      range: range(readingKey(field, 0), readingKey(field, points - 1)),
      low: '#C9D6E8',
      middle: '#F4F1E6',
      high: '#F2C879',
    });
  }
  for (const [name, begins] of [
    ['decision', 'fail'],
    ['decision', 'conditional fail'],
    ['agree', 'differ'],
  ] as const)
    b.alert({ range: range(name), begins, ...RED });
  if (range('state')) b.alert({ range: range('state'), begins: 'ambient', ...RED });
}
