import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';

/** Figures of run sheets for the lines of an acceptance sheet: by name of the column, `null` leaves a cell alone. */
export interface TakenResults {
  readonly columns: Readonly<Record<string, readonly (readonly CellValue[])[]>>;
  readonly taken: number;
  /** What was not taken and why. */
  readonly remarks: readonly string[];
}

const FIGURES = [
  ['UnitWhite', 'WhiteLightOutput'],
  ['UnitWhiteU', 'WhiteExpanded'],
  ['UnitColour', 'ColourLightOutput'],
  ['UnitColourU', 'ColourExpanded'],
] as const;

/** Which run belongs to which unit is told by the serial number, letter by letter. */
export function resultsFor(lot: SheetReading, runs: readonly SheetReading[]): TakenResults {
  const serials = (lot.values.Serials?.values ?? []).map((row) => key(row[0] ?? null));
  const places = (lot.values.DrawPlaces?.values ?? []).map((row) => row[0] ?? null);
  const remarks: string[] = [];
  const found = new Map<number, SheetReading>();
  for (const run of runs) {
    const serial = key(run.values.SerialNumber?.values[0]?.[0] ?? null);
    const at = serial === '' ? -1 : serials.indexOf(serial);
    if (at < 0) continue;
    if (typeof first(run, 'WhiteLightOutput') !== 'number') {
      remarks.push(`\u201c${run.sheet}\u201d (${serial}) has no result yet.`);
      continue;
    }
    const other = found.get(at);
    if (other) {
      remarks.push(
        `Serial ${serial} has two runs, \u201c${other.sheet}\u201d and \u201c${run.sheet}\u201d: the first was taken. Which one counts is for you to say.`,
      );
      continue;
    }
    if (typeof places[at] !== 'number')
      remarks.push(`Serial ${serial} was not drawn: its result is listed and not counted.`);
    found.set(at, run);
  }
  const column = (pick: (run: SheetReading) => CellValue) =>
    serials.map((_, i) => {
      const run = found.get(i);
      return [run ? pick(run) : null];
    });
  const columns = Object.fromEntries(
    FIGURES.map(([name, source]) => [
      name,
      column((run) => {
        const value = first(run, source);
        return typeof value === 'number' ? value : null;
      }),
    ]),
  );
  return { columns: { ...columns, UnitRemark: column(({ sheet }) => sheet) }, taken: found.size, remarks };
}

function first({ values }: SheetReading, name: string): CellValue {
  return values[name]?.values[0]?.[0] ?? null;
}

function key(value: CellValue): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value).normalize('NFC').trim() : '';
}
