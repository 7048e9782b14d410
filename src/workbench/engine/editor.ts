import type { ICellData, Nullable } from '@univerjs/core';
import type { SheetInterceptorService } from '@univerjs/sheets';
import type { Engine } from './engine';

type Interceptor = SheetInterceptorService['writeCellInterceptor'];
type Point = Parameters<Interceptor['fetchThroughInterceptors']>[0];

/**
 * Shows formulas in the cell editor and the formula bar as they were written: `=SUM(WhiteReadings)` and not
 * `=SUM(WhiteReadings.7)`. The page hands in the engine's `SheetInterceptorService` and `BEFORE_CELL_EDIT`,
 * which only its own copy of the engine has. Returns how to stop.
 *
 * The engine's own handler puts its form of a formula in and ends the chain, so ours is not one of the chain
 * but stands behind it.
 */
export function showWrittenFormulas(
  engine: Engine,
  { writeCellInterceptor }: Pick<SheetInterceptorService, 'writeCellInterceptor'>,
  beforeCellEdit: unknown,
): () => void {
  const fetch = writeCellInterceptor.fetchThroughInterceptors;
  writeCellInterceptor.fetchThroughInterceptors = ((point: Point, filter?: () => boolean) => {
    const through = fetch.call(writeCellInterceptor, point, filter);
    if (point !== beforeCellEdit) return through;
    return (given: unknown, location: unknown) => {
      const shown = through(given as never, location as never) as Nullable<ICellData>;
      if (!shown?.f) return shown;
      return { ...shown, f: engine.decode(shown.f, (location as { subUnitId: string }).subUnitId) };
    };
  }) as typeof fetch;
  return () => {
    writeCellInterceptor.fetchThroughInterceptors = fetch;
  };
}
