import type { SheetInterceptorService } from '@univerjs/sheets';

type Intercept = SheetInterceptorService['intercept'];
type Point = Parameters<Intercept>[0];
/** What the engine hands over when it is about to draw a cell. */
interface Drawn {
  readonly cell: { readonly s?: unknown; readonly v?: unknown } | null | undefined;
  readonly location: { readonly workbook: { getStyles(): { get(style: never): unknown } } };
}

/** A format of four empty sections shows neither numbers nor texts (ECMA-376-1, 18.8.31). */
const UNSEEN = ';;;';

/**
 * Draws nothing where a cell's format says so; by itself the engine heeds a format for numbers only. The cell's value stays
 * what it is. The page hands in the engine's `SheetInterceptorService` and `INTERCEPTOR_POINT.CELL_CONTENT`, which only its
 * own copy of the engine has.
 */
export function drawNothingUnseen(
  service: { intercept(point: Point, handler: unknown): unknown },
  cellContent: Point,
): void {
  service.intercept(cellContent, {
    // Above the engine's own, which would draw the text.
    priority: 1000,
    handler: (cell: Drawn['cell'], location: Drawn['location'], next: (cell: Drawn['cell']) => unknown) => {
      if (typeof cell?.v !== 'string' || !cell.s) return next(cell);
      const style = location.workbook.getStyles().get(cell.s as never) as
        | { n?: { pattern?: string } | null }
        | null
        | undefined;
      return style?.n?.pattern === UNSEEN ? next({ ...cell, v: '' }) : next(cell);
    },
  });
}
