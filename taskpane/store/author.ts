import { type ReadonlySignal, signal } from '@preact/signals';
import { version } from '../../package.json';
import { utc } from '../../src/sheets/days';
import type { Moment } from '../../src/sheets/report';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import type { Preferences } from '../preferences';

/** Who works in the pane, as that person says once; it goes into the log, seals and reports. */
export interface Author {
  readonly who: ReadonlySignal<string>;
  type(text: string): void;
  /** Takes a name that was stated elsewhere in the pane, unless one is known already. */
  suppose(name: string): void;
  /** Now, and by whom. */
  moment(): Moment;
  recall(): Promise<void>;
}

const KEPT = 'who';

export function createAuthor(preferences: Preferences): Author {
  const who = signal('');
  function put(text: string): void {
    who.value = text.slice(0, TEXT_MAX);
    void preferences.set(KEPT, who.value);
  }
  return {
    who,
    type: put,
    suppose: (name) => {
      if (who.peek().trim() === '' && name.trim() !== '') put(name.trim());
    },
    moment: () => ({ when: utc(new Date()), who: who.peek().trim(), program: version }),
    recall: async () => {
      const kept = await preferences.get(KEPT);
      // What was typed meanwhile counts.
      if (typeof kept === 'string' && who.peek() === '') who.value = kept.slice(0, TEXT_MAX);
    },
  };
}
