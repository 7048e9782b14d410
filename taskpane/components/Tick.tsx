import type { ComponentChildren } from 'preact';
import look from './look.module.css';

export interface TickProps {
  /** Unique in the page. */
  readonly id: string;
  readonly isOn: boolean;
  readonly onTick: (isOn: boolean) => void;
  readonly children: ComponentChildren;
}

/** A box to tick, with its words. */
export function Tick({ id, isOn, onTick, children }: TickProps) {
  return (
    <label class={look.tick} for={id}>
      <input
        id={id}
        type="checkbox"
        checked={isOn}
        onChange={(event) => onTick(event.currentTarget.checked)}
      />
      <span>{children}</span>
    </label>
  );
}
