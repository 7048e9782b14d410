import type { ComponentChildren } from 'preact';
import look from './look.module.css';
import { Note } from './Note';

export interface EntryProps {
  /** Unique in the page. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly type?: 'text' | 'number' | 'date';
  /** More than one: as many lines are shown. */
  readonly rows?: number;
  /** Lines of words to be read, and not a list. */
  readonly isProse?: boolean;
  readonly hint?: ComponentChildren;
  readonly error?: string | undefined;
  /** Whether it must not stay empty. */
  readonly isNeeded?: boolean;
  readonly onType: (text: string) => void;
  readonly onLeave?: () => void;
  /** Below the note: ways to answer what it asks. */
  readonly children?: ComponentChildren;
}

/** A labelled text with its hint or what is wrong with it. Numbers are text too: people type "1,92 m". */
export function Entry(props: EntryProps) {
  const { id, label, value, type = 'text', rows, hint, error, isNeeded = false, children } = props;
  const common = {
    id,
    value,
    spellcheck: false,
    'aria-describedby': `${id}-note`,
    'aria-invalid': error !== undefined,
    'aria-required': isNeeded,
    onBlur: () => props.onLeave?.(),
  };
  return (
    <div class={look.field}>
      <label for={id}>
        {label}
        {isNeeded && value === '' && <span class={look.needed}> (needed)</span>}
      </label>
      {rows ? (
        <textarea
          {...common}
          class={props.isProse ? look.prose : undefined}
          rows={rows}
          onInput={(event) => props.onType(event.currentTarget.value)}
        />
      ) : (
        <input
          {...common}
          {...(type === 'date' ? { type: 'date' as const } : { type: 'text' as const })}
          inputMode={type === 'number' ? 'decimal' : 'text'}
          autocomplete="off"
          onInput={(event) => props.onType(event.currentTarget.value)}
        />
      )}
      <Note id={id} hint={hint} error={error}>
        {children}
      </Note>
    </div>
  );
}
