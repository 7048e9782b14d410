import { cellName } from '../../sheets/address';
import type { Engine } from './engine';
import { around, formatAddress } from './reference';

/** Computed values as the engine hands them over: by workbook, sheet, row and column. */
type Table = Record<string, Record<string, unknown>>;
interface Results {
  readonly unitData?: Record<string, Record<string, Table | undefined> | undefined>;
}

/** Longest list of single cells in one event; more are told as the rectangle around them. */
const MOST_CELLS = 50;

/** Tells, after each calculation, which cells of which sheet got new results. */
export function followResults(engine: Engine): void {
  engine.api.onCommandExecuted(({ id, params }) => {
    if (id !== 'formula.mutation.set-formula-calculation-result') return;
    const sheets = (params as Results).unitData?.[engine.port.workbook.getId()] ?? {};
    for (const [sheet, table] of Object.entries(sheets)) {
      const cells = Object.entries(table ?? {}).flatMap(([row, line]) =>
        Object.keys(line).map((column) => [Number(row), Number(column)] as const),
      );
      if (cells.length > 0) engine.events.emit({ kind: 'calculated', sheet, address: addressOfCells(cells) });
    }
  });
}

function addressOfCells(cells: readonly (readonly [number, number])[]): string {
  if (cells.length <= MOST_CELLS) return cells.map(([row, column]) => cellName(row, column)).join(',');
  return formatAddress(around(cells)!);
}
