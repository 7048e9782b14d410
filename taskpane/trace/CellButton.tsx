import type { Store } from '../store';
import own from './CellButton.module.css';
import { goTo } from './goto';

export interface CellButtonProps {
  readonly store: Store;
  readonly sheet: string;
  readonly at: string;
}

/** A cell reference that takes the selection there. */
export function CellButton({ store, sheet, at }: CellButtonProps) {
  return (
    <button
      type="button"
      class={own.cell}
      aria-label={`Go to ${at}`}
      title={`${sheet}!${at}`}
      onClick={() => void goTo(store, sheet, at)}
    >
      {at}
    </button>
  );
}
