import { effect, type Signal } from '@preact/signals';

/** What an action came to, in words; `refused` where nothing was done, so that it does not look like success. */
export type Said = string | { readonly refused: string };

export const refused = (words: string): Said => ({ refused: words });

/**
 * A refusal goes as soon as what it is about changes, so that it does not stand beside a form that is right by now.
 *
 * @param about reads the signals whose change counts
 */
export function goesWith(report: Signal<Said>, about: () => void): void {
  effect(() => {
    about();
    if (typeof report.peek() !== 'string') report.value = '';
  });
}
