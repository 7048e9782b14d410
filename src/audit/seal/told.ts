import type { Book } from '../../sheets/book';
import type { PlanCell } from '../../sheets/plan';
import { styleOf } from '../../sheets/style';
import { expectedOf } from '../expected';
import { normalFormat } from '../format';
import type { SheetView } from '../view';
import { mark } from './bytes';
import type { Entry } from './entry';
import { lookOf } from './seen';

/**
 * What of a sealed cell that differs is told: its contents, number format, lock and look are one line under one mark, and
 * the mark does not say which of them was another. The layout does: where the line with a planned format, lock or look
 * in place of today's bears the mark, that is what was changed; where they are all as planned, it is the contents.
 */
export function toldOf(view: SheetView, book: Book): (entry: Entry, sealed: string) => string | undefined {
  let plan: ReturnType<typeof expectedOf> | undefined;
  return ({ group, key, text }, sealed) => {
    if (group !== 'cell') return undefined;
    plan ??= expectedOf(view, book);
    const cell = plan.known ? plan.plan.cells[key] : undefined;
    if (!cell) return undefined;
    const parts = text.split('\t');
    const count = /^#\w+ on #\w+, [\d.]+ pt$/.test(parts.at(-1)!) ? 3 : 2;
    const [contents, now] = [parts.slice(0, -count).join('\t'), parts.slice(-count)];
    const planned = plannedParts(cell).slice(0, count);
    if (now.every((part, i) => part === planned[i])) return contents.slice(`cell ${key} `.length);
    for (let which = 1; which < 2 ** count; which++) {
      const others = now.map((part, i) => (which & (2 ** i) ? planned[i]! : part));
      if (mark([contents, ...others].join('\t')) !== sealed) continue;
      const changed = now.flatMap((part, i) => (part === others[i] ? [] : [`${LABELS[i]} ${part}`]));
      return changed.join(', ');
    }
    return undefined;
  };
}

const LABELS = ['number format', 'lock', 'look'];

function plannedParts(cell: PlanCell): string[] {
  const style = styleOf(cell);
  return [normalFormat(cell.format), style.locked === false ? 'open' : 'locked', lookOf(style)];
}
