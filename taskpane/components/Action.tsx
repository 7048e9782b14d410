import type { ComponentChildren } from 'preact';
import own from './Action.module.css';

export interface ActionProps {
  readonly children: ComponentChildren;
  /** The one main action of its section. */
  readonly isMain?: boolean;
  /** Why it cannot be done now is said elsewhere; it stays reachable by keyboard. */
  readonly isOff?: boolean;
  readonly onAct: () => void;
}

/** A button. Switched off it keeps the focus, which `disabled` would drop in the middle of an action. */
export function Action({ children, isMain = false, isOff = false, onAct }: ActionProps) {
  return (
    <button
      type="button"
      class={isMain ? `${own.action} ${own.main}` : own.action}
      aria-disabled={isOff}
      onClick={() => {
        if (!isOff) onAct();
      }}
    >
      {children}
    </button>
  );
}
