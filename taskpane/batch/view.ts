import type { CellsByName } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import type { IlluminanceUnit } from '../../src/photometry/units';
import { hasColour, isCentre, SAYS } from '../../src/procurement/batch/columns';
import { serialKey } from '../../src/procurement/lot/serials';
import { cellName, rectOf } from '../../src/sheets/address';
import { RESULT_NAMES, SETUP_NAMES } from '../../src/sheets/batch/names';
import type { BatchSetup } from '../../src/sheets/batch/setup';
import { batchSetupOf } from '../../src/sheets/batch/setupof';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { shown } from '../parse/quantity';
import type { LogBatch } from './logrow';

/**
 * What is read of a batch while it is looked at. Not its readings: those of 5000 units are more than one answer of
 * the host may hold, and the states tell enough.
 */
export const VIEW_NAMES: readonly CellName[] = [
  ...SETUP_NAMES,
  'Serials',
  'UnitPlaces',
  'UnitHours',
  'UnitDates',
  ...RESULT_NAMES,
  'Agreement',
];

/** One line with a unit. */
export interface UnitLine {
  /** Counted from 0. */
  readonly line: number;
  readonly serial: string;
  readonly place: string;
  readonly state: string;
  readonly decision: string;
  /** White and colour as the sheet has them, in words; empty where there are none yet. */
  readonly results: string;
  /** Cell of the serial number, to go to. */
  readonly cell: string;
}

/** A batch of the workbook as its card shows it. */
export interface BatchView {
  readonly sheet: string;
  readonly setup: BatchSetup;
  readonly units: readonly UnitLine[];
  readonly complete: number;
  readonly failing: readonly UnitLine[];
  /** Rows that are complete in number, or hold something, and still cannot be used. */
  readonly odd: readonly UnitLine[];
  /** The one ambient reading that all rows wait for: how many, and its cell. */
  readonly waiting?: { readonly count: number; readonly cell: string };
  /** The first unit with readings to be taken. */
  readonly next?: UnitLine;
  readonly conditional: number;
  readonly differing: number;
  /** True where the function's table shows no results, because the add-in was not there. */
  readonly isPlainOnly: boolean;
  readonly log: LogBatch;
}

const text = (value: CellValue | undefined) =>
  typeof value === 'string' || typeof value === 'number' ? String(value).trim() : '';

/** Serial numbers line by line, as they are told apart; empty where a line is free. */
export function serialsOn(cells: CellsByName): string[] {
  return cells.Serials?.values.map((row) => serialKey(row[0])) ?? [];
}

/** Cells → card. */
export function batchView(sheet: string, cells: CellsByName): BatchView {
  const setup = batchSetupOf(cells);
  const column = (name: CellName) => cells[name]?.values.map((row) => row[0]) ?? [];
  const [serials, places, states, decisions, agreement] = (
    ['Serials', 'UnitPlaces', 'UnitState', 'UnitDecision', 'Agreement'] as const
  ).map(column);
  const first = rectOf(cells.Serials?.address ?? 'A1');
  const resultsAt = resultWords(cells, setup);
  const units = serials!.flatMap((value, line): UnitLine[] => {
    const [serial, state] = [text(value), text(states![line])];
    if (serial === '' && state === '') return [];
    return [
      {
        line,
        serial,
        place: text(places![line]),
        state,
        decision: text(decisions![line]),
        results: resultsAt(line),
        cell: cellName(first.row + line, first.column),
      },
    ];
  });
  const isOdd = ({ state }: UnitLine) =>
    state !== '' && state !== SAYS.complete && !/^\d+ of \d+$/.test(state);
  // Read once for all rows: that it lacks is one thing to do, not one a row.
  const ambientAt = setup.ambient === 'once' ? cells.AmbientReadings?.address.split(':')[0] : undefined;
  const isWaiting = ({ state }: UnitLine) => ambientAt !== undefined && state === SAYS.noAmbient;
  const waiting = units.filter(isWaiting).length;
  return {
    sheet,
    setup,
    units,
    complete: units.filter(({ state }) => state === SAYS.complete).length,
    failing: units.filter(({ decision }) => decision === 'fail' || decision === 'conditional fail'),
    odd: units.filter((unit) => isOdd(unit) && !isWaiting(unit)),
    ...(waiting > 0 ? { waiting: { count: waiting, cell: ambientAt! } } : {}),
    ...nextOf(units),
    conditional: units.filter(({ decision }) => decision === 'conditional pass').length,
    differing: agreement!.filter((one) => one === 'differ').length,
    isPlainOnly: agreement!.includes('plain formula only'),
    log: {
      readings: setup.readings,
      unit: setup.meter.unit satisfies IlluminanceUnit,
      serials: serialsOn(cells),
      filled: states!.map((state) => !/^(0 of \d+)?$/.test(text(state))),
      isAmbientByRow: setup.ambient === 'by row',
    },
  };
}

function nextOf(units: readonly UnitLine[]): { next?: UnitLine } {
  const next = units.find(({ state }) => /^\d+ of \d+$/.test(state));
  return next ? { next } : {};
}

/** "white (2070 ± 170) lm, colour …", from the cells of a line. */
function resultWords(cells: CellsByName, { readings }: BatchSetup): (line: number) => string {
  const stem = isCentre(readings) ? 'Part' : '';
  const ids = hasColour(readings) ? (['White', 'Colour'] as const) : (['White'] as const);
  return (line) =>
    ids
      .flatMap((id) => {
        const [value, expanded] = (['', 'U'] as const).map(
          (end) => cells[`Unit${id}${stem}${end}`]?.values[line]?.[0],
        );
        if (typeof value !== 'number') return [];
        const [times, unit] = isCentre(readings) ? [100, '%'] : [1, 'lm'];
        const text =
          typeof expanded === 'number' && expanded > 0
            ? reportText(times * value, times * expanded, unit)
            : `${shown(Number((times * value).toFixed(isCentre(readings) ? 1 : 0)))} ${unit}`;
        return [`${id.toLowerCase()} ${text}${isCentre(readings) ? ' of the reference' : ''}`];
      })
      .join(', ');
}
