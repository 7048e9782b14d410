import { type ReadonlySignal, signal } from '@preact/signals';
import type { TraceNode } from '../../src/audit/trace/node';
import { traceSheet } from '../../src/audit/trace/sheet';
import { trace } from '../../src/audit/trace/trace';
import { perStore } from '../store/perstore';
import { auditedBook } from './auditedbook';

/** The chain of the cell last asked for. */
export interface Tracing {
  readonly node: ReadonlySignal<TraceNode | undefined>;
  /** Counts traces, so that a new tree starts folded as a new tree does. */
  readonly count: ReadonlySignal<number>;
  /** What there is to say in place of a chain, or beside it. */
  readonly said: ReadonlySignal<string>;
  /** Traces the cell the cursor is in. */
  traceSelected(): Promise<void>;
  /** Writes the chain to a sheet of its own. */
  toSheet(): Promise<void>;
}

export const tracingOf = perStore(({ host, workbook, troubles, author, makeId }): Tracing => {
  const node = signal<TraceNode | undefined>(undefined);
  const count = signal(0);
  const said = signal('');
  return {
    node,
    count,
    said,
    traceSelected: async () => {
      const attempt = await troubles.attempt('Tracing', async () => {
        const { sheet, cell } = await host.selection();
        return { sheet, cell, found: trace(await auditedBook(host, [sheet]), sheet, cell) };
      });
      if (!attempt.ok) return;
      const { found, sheet, cell } = attempt.value;
      count.value++;
      node.value = found && isBlank(found) ? undefined : found;
      said.value = sentence(found, sheet, cell);
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

function isBlank({ value, formula }: TraceNode): boolean {
  return formula === undefined && (value === null || value === '');
}

function sentence(found: TraceNode | undefined, sheet: string, cell: string): string {
  if (!found || isBlank(found)) {
    return `${cell} on \u201c${sheet}\u201d is empty. Select a cell with a result, then trace again.`;
  }
  if (found.formula === undefined) {
    return `${cell} on \u201c${sheet}\u201d is typed or fixed: nothing stands behind it.`;
  }
  return `Traced ${cell} on \u201c${sheet}\u201d, as it stood then.`;
}
