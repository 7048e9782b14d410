import look from '../components/look.module.css';
import own from './EntryList.module.css';

import type { Entry } from './entries';

export interface EntryListProps {
  readonly entries: readonly Entry[];
  readonly onOpen: (id: string) => void;
}

/** Ways to other pages: a name or a question each, and below it what it takes. */
export function EntryList({ entries, onOpen }: EntryListProps) {
  return (
    <ul class={own.entries}>
      {entries.map(({ id, title, question, gist }) => (
        <li key={id}>
          <button type="button" aria-describedby={`entry-${id}`} onClick={() => onOpen(id)}>
            {question ?? title}
          </button>
          <p class={look.quiet} id={`entry-${id}`}>
            {gist}
          </p>
        </li>
      ))}
    </ul>
  );
}
