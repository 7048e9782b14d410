import { signal } from '@preact/signals';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';

/** The page of the pane whose help is asked for; empty for all of it. */
export const topicOf = perStore(() => signal(''));

/** Opens the help at the page that asks. */
export function openHelp(store: Store, page: string): void {
  topicOf(store).value = page;
  store.open('help');
}
