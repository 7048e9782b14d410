import { type ReadonlySignal, signal } from '@preact/signals';
import { decode } from './decode';

/** A text from a file or pasted, the later of the two. */
export interface Source {
  readonly text: ReadonlySignal<string>;
  /** About the file: how it was read, or why it could not be. */
  readonly note: ReadonlySignal<string>;
  /** Name of the file the text is from; empty for a pasted one. */
  readonly file: ReadonlySignal<string>;
  paste(text: string): void;
  choose(file: File): Promise<void>;
  /** Another text in place of this one, from the same file: what is left of it. */
  keep(rest: string): void;
  /** Counts the texts: what was begun for an earlier one is out of date. */
  edition(): number;
}

/**
 * @param limit of a file in bytes, and what a larger one is too large for: "a list of offers"
 * @param onText is told of each new text and the one before it
 */
export function createSource(
  limit: { readonly bytes: number; readonly what: string },
  onText: (next: string, before: string) => void,
): Source {
  const text = signal('');
  const note = signal('');
  const file = signal('');
  let [texts, files] = [0, 0];

  function put(next: string, about = '', from = ''): void {
    texts++;
    onText(next, text.peek());
    text.value = next;
    note.value = about;
    file.value = from;
  }

  return {
    text,
    note,
    file,
    paste: (next) => put(next),
    choose: async (chosen) => {
      const name = `“${chosen.name}”`;
      if (chosen.size > limit.bytes) {
        note.value = `${name} is too large for ${limit.what}; it was not read.`;
        return;
      }
      const own = ++files;
      const before = texts;
      try {
        const found = decode(new Uint8Array(await chosen.arrayBuffer()));
        if (own !== files || before !== texts) return;
        put(found.text, [`Read ${name}.`, found.note].filter(Boolean).join(' '), chosen.name);
      } catch (error) {
        if (own !== files || before !== texts) return;
        // The file went away or is not readable: say so; what was there before stays.
        note.value = `${name} could not be read: ${error instanceof Error ? error.message : String(error)}`;
      }
    },
    keep: (rest) => put(rest, '', file.peek()),
    edition: () => texts,
  };
}
