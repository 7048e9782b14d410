import type { Store } from '../store';
import type { NextThing } from './next';

/** What shows a kind of sheet beside its head is given. */
export interface BodyProps {
  readonly store: Store;
  /** The next thing with the sheet: whoever offers it makes its button the main one. */
  readonly next: NextThing | undefined;
}
