import type { Entry } from '../parse/cell';
import { shown } from '../parse/quantity';

/** What a preview marks a pasted entry as; most are not marked. */
export type EntryLook = 'bad' | 'asked' | 'over' | undefined;

export function entryLook({ kind }: Entry): EntryLook {
  if (kind === 'refused') return 'bad';
  if (kind === 'decimal?' || kind === 'one?') return 'asked';
  return kind === 'over' ? 'over' : undefined;
}

/** What will stand in the cell; what cannot, stands as it came, with a mark that does not rely on colour. */
export function textOf(entry: Entry): string {
  switch (entry.kind) {
    case 'number':
      return shown(entry.value);
    case 'over':
      return 'over';
    case 'empty':
      return '\u2013';
    case 'refused':
      return `\u2717 ${entry.text}`;
    default:
      return `? ${entry.text}`;
  }
}
