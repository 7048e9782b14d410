import { FUNCTIONS } from '../../src/functions/table';
import { cellsOf, rectOf } from '../../src/sheets/address';
import type { BatchSetup } from '../../src/sheets/batch/setup';
import { defaultBatchSetup } from '../../src/sheets/batch/setup';
import type { Book, CellValue } from '../../src/sheets/book';
import type { Plan, PlanCell } from '../../src/sheets/plan';
import { rangeNamed } from './named';

export { rangeNamed as rangeOf };

/* Units, places and readings are invented: a library network that fits out its reading rooms. */

/** 2 m × 1.25 m, a meter in lux on its × 10 range, rated 2300 lm of which 80 % must be there, U stated as 8 %. */
export function batchSetup(part: Partial<BatchSetup> = {}): BatchSetup {
  const base = defaultBatchSetup();
  return {
    ...base,
    title: 'reading rooms (invented)',
    projector: 'Model K (invented)',
    mode: 'bright, 100 %',
    measuredBy: 'R. Invented',
    meter: { ...base.meter, name: 'Meter 1 (invented)', range: 10, digit: 1 },
    image: { shape: 'rectangle', known: 'width', length: 2, unit: 'm', across: 16, down: 10 },
    rated: { white: 2300, colour: 2300, minimumFraction: 0.8 },
    stated: { white: 0.08, colour: 0.08 },
    units: Array.from({ length: part.lines ?? 6 }, (_, i) => ({
      serial: `K-${String(i + 1).padStart(4, '0')}`,
      place: `Room ${i + 1}`,
      hours: 100 * i,
      date: '2026-11-25',
    })),
    lines: 6,
    ...part,
  };
}

export type Typed = Readonly<Record<string, readonly (readonly (CellValue | undefined)[])[]>>;

/** Types values into named ranges of a plan, row by row; `undefined` leaves a cell as it is, `null` empties it. */
export function typed(plan: Plan, values: Typed): Plan {
  const cells: Record<string, PlanCell> = { ...plan.cells };
  for (const [name, rows] of Object.entries(values)) {
    const range = rangeNamed(plan, name);
    const { columns } = rectOf(range);
    const at = cellsOf(range);
    rows.forEach((row, r) => {
      row.forEach((value, c) => {
        const address = at[r * columns + c]!;
        const { value: _, ...cell } = cells[address]!;
        if (value === undefined) return;
        cells[address] = value === null ? cell : { ...cell, value: value as string | number };
      });
    });
  }
  return { ...plan, cells };
}

/** What stands behind a name of a workbook's first sheet, row by row; an empty text is nothing. */
export function gridIn(book: Book, plan: Plan, name: string): CellValue[][] {
  const range = rangeNamed(plan, name);
  const { columns } = rectOf(range);
  const flat = cellsOf(range).map((at) => book.sheets[0]!.cells[at]?.value ?? null);
  return Array.from({ length: flat.length / columns }, (_, r) => flat.slice(r * columns, (r + 1) * columns));
}

export const column = (book: Book, plan: Plan, name: string) => gridIn(book, plan, name).flat();

const isCentre = (plan: Plan) => plan.names.some(({ name }) => name === 'ReferenceTerms');

/** What the function is handed for all lines: what the plain cells of a calculated book hold. */
export function argumentsOf(book: Book, plan: Plan): CellValue[][][] {
  return [
    'Serials',
    'Readings',
    'RangeFactors',
    'AmbientLux',
    isCentre(plan) ? 'ReferenceTerms' : 'ImageArea',
    'DisplayFactors',
    'Limits',
    'SpreadTerms',
    'DecisionRule',
    'LightFactors',
  ].map((name) => gridIn(book, plan, name));
}

/** The function's own table for a recalculated book. */
export function byFunction(book: Book, plan: Plan): (string | number)[][] {
  const record = FUNCTIONS.find(({ id }) => id === (isCentre(plan) ? 'BATCHCENTRE' : 'BATCH'))!;
  const result = record.evaluate(argumentsOf(book, plan));
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join(' '));
  return result.value as (string | number)[][];
}
