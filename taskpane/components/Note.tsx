import type { ComponentChildren } from 'preact';
import look from './look.module.css';

export interface NoteProps {
  /** Of the control that it describes. */
  readonly id: string;
  readonly hint?: ComponentChildren;
  /** Several sentences may stand in lines of their own. */
  readonly error?: string | undefined;
  readonly children?: ComponentChildren;
}

/** What stands below a control: what is wrong with it, else a hint; and ways to answer. */
export function Note({ id, hint, error, children }: NoteProps) {
  const lines = error?.split('\n') ?? [];
  return (
    <div>
      <div id={`${id}-note`}>
        {lines.map((line) => (
          <p key={line} class={look.error}>
            {line}
          </p>
        ))}
        {lines.length === 0 && hint && <p class={look.quiet}>{hint}</p>}
      </div>
      {children}
    </div>
  );
}
