export interface ChoiceProps {
  /** Unique in the page. */
  readonly id: string;
  readonly label: string;
  readonly value: string;
  /** What is kept, and the words that are shown. */
  readonly choices: readonly (readonly [value: string, words: string])[];
  readonly hint?: string;
  readonly onPick: (value: string) => void;
}

/** A labelled list to choose one of. */
export function Choice({ id, label, value, choices, hint, onPick }: ChoiceProps) {
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={hint ? `${id}-note` : undefined}
        onChange={(event) => onPick(event.currentTarget.value)}
      >
        {choices.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
      {hint && (
        <p class="hint" id={`${id}-note`}>
          {hint}
        </p>
      )}
    </div>
  );
}
