import type { ICellData, Nullable } from '@univerjs/core';
import type { SheetInterceptorService } from '@univerjs/sheets';
import type { Engine } from './engine';

/** Before all other handlers of the engine: those end the chain. */
const FIRST = 10_000;

/**
 * Shows formulas in the cell editor and the formula bar as they were written: `=SUM(WhiteReadings)` and not
 * `=SUM(WhiteReadings.7)`. The page hands in the engine's `SheetInterceptorService` and `BEFORE_CELL_EDIT`,
 * which only its own copy of the engine has. Returns how to stop.
 */
export function showWrittenFormulas(
  engine: Engine,
  { writeCellInterceptor }: Pick<SheetInterceptorService, 'writeCellInterceptor'>,
  beforeCellEdit: Parameters<SheetInterceptorService['writeCellInterceptor']['intercept']>[0],
): () => void {
  return writeCellInterceptor.intercept(beforeCellEdit, {
    priority: FIRST,
    handler: (cell: unknown, location: unknown, next: unknown) => {
      const shown = (next as (cell: unknown) => Nullable<ICellData>)(cell);
      const { subUnitId } = location as { subUnitId: string };
      return (shown?.f ? { ...shown, f: engine.decode(shown.f, subUnitId) } : shown) as never;
    },
  });
}
