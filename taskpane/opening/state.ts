import { type ReadonlySignal, signal } from '@preact/signals';
import { perStore } from '../store/perstore';

/** Whether this workbook opens the pane by itself. */
export interface Opening {
  /** Undefined until the workbook was asked; `never` where no pane opens by itself. */
  readonly opens: ReadonlySignal<boolean | 'never' | undefined>;
  look(): Promise<void>;
  set(opens: boolean): Promise<void>;
}

export const openingOf = perStore(({ program, troubles }): Opening => {
  const opens = signal<boolean | 'never' | undefined>(undefined);
  const look = async () => {
    const attempt = await troubles.attempt('Looking at the workbook', () => program.opensPane());
    // A workbook of which nobody has said anything opens nothing.
    if (attempt.ok) opens.value = attempt.value ?? false;
  };
  return {
    opens,
    look,
    set: async (wanted) => {
      const before = opens.peek();
      // The box shows what was chosen at once, and what holds where the program refuses.
      opens.value = wanted;
      const attempt = await troubles.attempt('Changing the workbook', () => program.setOpensPane(wanted));
      if (!attempt.ok) opens.value = before;
    },
  };
});
