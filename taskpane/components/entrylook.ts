import type { Entry } from '../parse/cell';
import { shown } from '../parse/quantity';

/** How a pasted entry is marked in a preview. */
export function classOf({ kind }: Entry): string {
  if (kind === 'refused') return 'bad';
  return kind === 'decimal?' || kind === 'one?' ? 'asked' : kind;
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
