import type { ComponentChildren } from 'preact';

export interface EntryProps {
  /** Unique in the page. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly type?: 'text' | 'number' | 'date';
  readonly hint?: ComponentChildren;
  readonly error?: string | undefined;
  readonly onType: (text: string) => void;
  /** Below the note: ways to answer what it asks. */
  readonly children?: ComponentChildren;
}

/** A labelled line of text with its hint or what is wrong with it. Numbers are text too: people type "1,92 m". */
export function Entry({ id, label, value, type = 'text', hint, error, onType, children }: EntryProps) {
  const note = `${id}-note`;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        {...(type === 'date' ? { type: 'date' as const } : { type: 'text' as const })}
        inputMode={type === 'number' ? 'decimal' : 'text'}
        autocomplete="off"
        spellcheck={false}
        value={value}
        aria-describedby={note}
        aria-invalid={error !== undefined}
        onInput={(event) => onType(event.currentTarget.value)}
      />
      <div class="under">
        <div id={note}>{error ? <p class="error">{error}</p> : hint ? <p class="hint">{hint}</p> : null}</div>
        {children}
      </div>
    </div>
  );
}
