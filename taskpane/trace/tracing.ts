import { type ReadonlySignal, signal } from '@preact/signals';
import { type CrossCheck, crossCheck } from '../../src/audit/trace/crosscheck';
import type { TraceNode } from '../../src/audit/trace/node';
import { traceSheet } from '../../src/audit/trace/sheet';
import { trace } from '../../src/audit/trace/trace';
import type { Book } from '../../src/sheets/book';
import { perStore } from '../store/perstore';
import { auditedBook } from './auditedbook';

/** Whether the spreadsheet program sees the same cells behind a formula as we do. */
export interface Opinion {
  readonly words: string;
  readonly isDiffering: boolean;
}

/** The chain of the cell last asked for. */
export interface Tracing {
  readonly node: ReadonlySignal<TraceNode | undefined>;
  /** Counts traces, so that a new tree starts folded as a new tree does. */
  readonly count: ReadonlySignal<number>;
  /** What there is to say in place of a chain, or beside it. */
  readonly said: ReadonlySignal<string>;
  /** What the spreadsheet program itself says of the cells behind the result; undefined where it cannot. */
  readonly second: ReadonlySignal<Opinion | undefined>;
  /** Traces the cell the cursor is in. */
  traceSelected(): Promise<void>;
  /** Writes the chain to a sheet of its own. */
  toSheet(): Promise<void>;
}

export const tracingOf = perStore(({ host, workbook, troubles, author, makeId }): Tracing => {
  const node = signal<TraceNode | undefined>(undefined);
  const count = signal(0);
  const said = signal('');
  const second = signal<Opinion | undefined>(undefined);
  /** A second opinion on the first step; that it cannot be had stands in nobody's way. */
  async function programSays(book: Book, sheet: string, cell: string): Promise<Opinion | undefined> {
    if (book.sheets[0]?.cells[cell]?.formula === undefined) return undefined;
    const areas = await host.precedents(sheet, cell).catch(() => undefined);
    const compared = areas && crossCheck(book, sheet, cell, areas);
    return compared && opinionOf(cell, compared);
  }

  return {
    node,
    count,
    said,
    second,
    traceSelected: async () => {
      const attempt = await troubles.attempt('Tracing', async () => {
        const { sheet, cell } = await host.selection();
        const book = await auditedBook(host, [sheet]);
        return {
          sheet,
          cell,
          found: trace(book, sheet, cell),
          opinion: await programSays(book, sheet, cell),
        };
      });
      if (!attempt.ok) return;
      const { found, sheet, cell, opinion } = attempt.value;
      count.value++;
      node.value = found && isBlank(found) ? undefined : found;
      said.value = sentence(found, sheet, cell);
      second.value = opinion;
    },
    toSheet: async () => {
      const found = node.peek();
      if (!found) return;
      const attempt = await troubles.attempt('Writing the chain to a sheet', () =>
        host.build(traceSheet(found, author.moment(), makeId())),
      );
      if (attempt.ok) said.value = `Wrote the chain to the sheet \u201c${attempt.value.sheet}\u201d.`;
      await workbook.look();
    },
  };
});

function opinionOf(cell: string, { onlyProgram, onlyFormula }: CrossCheck): Opinion {
  if (onlyProgram.length === 0 && onlyFormula.length === 0) {
    return { words: `The spreadsheet program names the same cells behind ${cell}.`, isDiffering: false };
  }
  const parts = [
    ...(onlyProgram.length > 0 ? [`it also names ${some(onlyProgram)}`] : []),
    ...(onlyFormula.length > 0 ? [`it does not name ${some(onlyFormula)}`] : []),
  ];
  return {
    words: `The spreadsheet program sees other cells behind ${cell} than its formula shows: ${parts.join('; ')}. Look at the formula.`,
    isDiffering: true,
  };
}

const LISTED = 6;
function some(cells: readonly string[]): string {
  const more = cells.length - LISTED;
  return `${cells.slice(0, LISTED).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

function isBlank({ value, formula }: TraceNode): boolean {
  return formula === undefined && (value === null || value === '');
}

function sentence(found: TraceNode | undefined, sheet: string, cell: string): string {
  if (!found || isBlank(found)) {
    return `${cell} on \u201c${sheet}\u201d is empty. Select a cell with a result, then trace again.`;
  }
  if (found.formula === undefined) {
    return `${cell} on \u201c${sheet}\u201d is typed or fixed: nothing stands behind it. Select a cell with a result, then trace again.`;
  }
  return `Traced ${cell} on \u201c${sheet}\u201d, as it stood then.`;
}
