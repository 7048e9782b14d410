/** A question that stands until a person has answered it. */
export interface Asking {
  readonly kind: 'doubt' | 'decimal' | 'conflict' | 'unit';
  readonly message: string;
  readonly choices: readonly Choice[];
  /** Whether the person may add words of his own to the note. */
  readonly canNote: boolean;
}

export interface Choice {
  readonly label: string;
  /** Key that gives it in the number entry, as `KeyboardEvent.key`: Enter, Escape, or a digit. */
  readonly key: string;
  /** @param words what the person added */
  act(words: string): void;
}
