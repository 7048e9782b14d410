import { type ReadonlySignal, signal } from '@preact/signals';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';

/** The cautions stand open until they were read once; afterwards they fold but stay where they are. */
export interface Cautions {
  readonly isOpen: ReadonlySignal<boolean>;
  fold(isOpen: boolean): void;
  /** "I have read this": folds them, and remembers. */
  read(): Promise<void>;
  recall(): Promise<void>;
}

const KEPT = 'cautionsRead';

export const cautionsOf = perStore(({ preferences }: Store): Cautions => {
  const isOpen = signal(true);
  return {
    isOpen,
    fold: (open) => {
      isOpen.value = open;
    },
    read: async () => {
      isOpen.value = false;
      await preferences.set(KEPT, true);
    },
    recall: async () => {
      if ((await preferences.get(KEPT)) === true) isOpen.value = false;
    },
  };
});
