import type { CellWrite, SheetReading, WantedNames } from '../../src/excel/host';
import { serialKey } from '../../src/procurement/lot/serials';
import {
  BATCH_NAMES,
  FIGURES,
  type LineCells,
  type LinkedLine,
  lineOfBatch,
  lineOfRun,
} from '../../src/sheets/acceptance/links';
import { cellName, rectOf } from '../../src/sheets/address';
import type { BookSheet, CellValue } from '../../src/sheets/book';
import { addressesOf, cellOf, columnOf, resultOf } from '../run/cell';

type Figures = Readonly<Partial<Record<(typeof FIGURES)[number][0], number | null>>>;

/** A line of a lot and the sheet that has its figures. */
export interface TakenLine {
  /** Line of the lot, from 0. */
  readonly line: number;
  readonly serial: string;
  readonly sheet: string;
  /** Figures by the name of the lot's column; `null` where the sheet has none. */
  readonly figures: Figures;
  readonly link: (cells: LineCells) => LinkedLine;
  readonly isBatch?: true;
}

/** What can be taken into a lot's lines, and in words what cannot, or should be known. */
export interface Taking {
  readonly lines: readonly TakenLine[];
  readonly remarks: readonly string[];
}

/** What is read of every run and batch before results are taken. */
export const WANTED: WantedNames = {
  run: [
    'SerialNumber',
    'Projector',
    'PictureMode',
    ...FIGURES.flatMap(([, result]) => [`${result}Plain` as const, result]),
  ],
  batch: BATCH_NAMES,
};

/**
 * Which sheet belongs to which unit is told by the serial number, letter by letter. A run with all its readings goes
 * before a line of a batch. Figures that a person typed and that are not those of the sheet stay.
 *
 * @param cells the lot's sheet with its formulas: a figure without one was typed
 */
export function takingFor(
  lot: SheetReading,
  cells: BookSheet['cells'],
  sheets: readonly SheetReading[],
): Taking {
  const serials = columnOf(lot, 'Serials').map(serialKey);
  const places = columnOf(lot, 'DrawPlaces');
  const remarks: string[] = [];
  const found = new Map<number, TakenLine>();
  for (const run of sheets.filter(({ kind }) => kind === 'run')) {
    const serial = serialKey(cellOf(run, 'SerialNumber') ?? null);
    const line = serial === '' ? -1 : serials.indexOf(serial);
    if (line < 0) continue;
    const other = found.get(line);
    if (other) {
      remarks.push(
        `Serial ${serial} has two runs, “${other.sheet}” and “${run.sheet}”: the first was taken. Which one counts is for you to say.`,
      );
      continue;
    }
    found.set(line, ofRun(run, line, serial));
  }
  for (const batch of sheets.filter(({ kind }) => kind === 'batch'))
    for (const taken of ofBatch(batch, serials)) {
      const other = found.get(taken.line);
      if (!other) found.set(taken.line, taken);
      // A unit of a batch that has been measured in full as well is nothing to speak of.
      else if (other.isBatch)
        remarks.push(
          `Serial ${taken.serial} is in two batches, “${other.sheet}” and “${batch.sheet}”: the first was taken. Which one counts is for you to say.`,
        );
    }
  const lines: TakenLine[] = [];
  for (const taken of [...found.values()].sort((a, b) => a.line - b.line)) {
    const { serial, line, sheet, figures } = taken;
    if (figures.UnitWhite === null && !taken.isBatch)
      remarks.push(`“${sheet}” (${serial}) has no result yet.`);
    if (isTypedOtherwise(lot, cells, taken)) {
      remarks.push(
        `Serial ${serial}: other figures than those of “${sheet}” are typed there and stay. Empty them to take these.`,
      );
      continue;
    }
    if (typeof places[line] !== 'number')
      remarks.push(`Serial ${serial} was not drawn: its result is listed and not counted.`);
    lines.push(taken);
  }
  return { lines, remarks };
}

function ofRun(run: SheetReading, line: number, serial: string): TakenLine {
  const addresses = addressesOf(run);
  const figures = Object.fromEntries(FIGURES.map(([column, name]) => [column, resultOf(run, name) ?? null]));
  return {
    line,
    serial,
    sheet: run.sheet,
    figures,
    link: (at) => lineOfRun({ sheet: run.sheet, addresses }, at),
  };
}

/** Lines of a batch with a serial number of the lot; a line without readings has nothing to take yet. */
function ofBatch(batch: SheetReading, serials: readonly string[]): TakenLine[] {
  const addresses = addressesOf(batch);
  const columns = Object.fromEntries(FIGURES.map(([name]) => [name, columnOf(batch, name)]));
  const own = columnOf(batch, 'Serials').map(serialKey);
  return serials.flatMap((serial, line): TakenLine[] => {
    const at = serial === '' ? -1 : own.indexOf(serial);
    if (at < 0) return [];
    const figures = Object.fromEntries(
      FIGURES.map(([name]) => {
        const value = columns[name]?.[at];
        return [name, typeof value === 'number' ? value : null];
      }),
    );
    const link = (cells: LineCells) => lineOfBatch({ sheet: batch.sheet, addresses }, cells);
    return [{ line, serial, sheet: batch.sheet, figures, link, isBatch: true }];
  });
}

/** The figures as numbers, and where they are from in a remark that is still empty. */
export function copiedCells(lot: SheetReading, lines: readonly TakenLine[]): CellWrite[] {
  const remarks = columnOf(lot, 'UnitRemark');
  return lines.flatMap(({ line, sheet, figures }): CellWrite[] => [
    ...FIGURES.flatMap(([name]) => {
      const value = figures[name] ?? null;
      return value === null ? [] : [{ name, row: line, column: 0, value }];
    }),
    ...(isBlank(remarks[line] ?? null)
      ? [{ name: 'UnitRemark' as const, row: line, column: 0, value: `copied from “${sheet}”` }]
      : []),
  ]);
}

/** Whether a figure stands in the line that is no formula and not what the sheet says. */
function isTypedOtherwise(
  lot: SheetReading,
  cells: BookSheet['cells'],
  { line, figures }: TakenLine,
): boolean {
  return FIGURES.some(([column]) => {
    const named = lot.values[column];
    if (!named) return false;
    const value = named.values[line]?.[0] ?? null;
    const { row, column: at } = rectOf(named.address);
    if (isBlank(value) || cells[cellName(row + line, at)]?.formula !== undefined) return false;
    const own = figures[column] ?? null;
    // Figures copied earlier are the sheet's own, but for the digits the program keeps.
    return !(typeof value === 'number' && own !== null && Math.abs(value - own) <= 1e-9 * Math.abs(own));
  });
}

const isBlank = (value: CellValue) => value === null || value === '';
