import type { CaptureStore } from '../store';

/** Escape folds what has been unfolded, and `onDone` puts the focus where numbers are typed. */
export function foldOnEscape(store: CaptureStore, onDone: () => void): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.key !== 'Escape' || store.panel.peek() === '') return;
    event.preventDefault();
    store.show('');
    onDone();
  };
}
