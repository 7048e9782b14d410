import type { Choices } from '../form/field';
import look from './look.module.css';
import { Note } from './Note';

export interface ChoiceProps {
  /** Unique in the page. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  /** What is kept, and the words that are shown. */
  readonly choices: Choices;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  readonly onPick: (value: string) => void;
}

/** A labelled list to choose one of. What stands there and is none of them is shown all the same. */
export function Choice({ id, label, value, choices, hint, error, onPick }: ChoiceProps) {
  const isOther = !choices.some(([each]) => each === value);
  return (
    <div class={look.field}>
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={`${id}-note`}
        aria-invalid={error !== undefined}
        onChange={(event) => onPick(event.currentTarget.value)}
      >
        {isOther && <option value={value}>{value}</option>}
        {choices.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      <Note id={id} hint={hint} error={error} />
    </div>
  );
}
