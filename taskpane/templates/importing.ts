import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Read, readTemplate } from '../../src/template/read';
import { MOST_CHARACTERS } from '../../src/template/shape';

/** A template from a file or a pasted text: looked at before anything is done with it. */
export interface Importing {
  readonly text: ReadonlySignal<string>;
  /** Undefined while there is nothing to read. */
  readonly read: ReadonlySignal<Read | undefined>;
  /** Why a file could not be read at all. */
  readonly problem: ReadonlySignal<string>;
  choose(file: File): Promise<void>;
  paste(text: string): void;
  clear(): void;
}

export function createImporting(): Importing {
  const text = signal('');
  const problem = signal('');
  return {
    text,
    problem,
    read: computed(() => (text.value.trim() === '' ? undefined : readTemplate(text.value))),
    choose: async (file) => {
      text.value = '';
      problem.value = '';
      // A character takes at most four bytes.
      if (file.size > 4 * MOST_CHARACTERS) {
        problem.value = `The file has ${file.size} bytes: no template is that large, so it was not read.`;
        return;
      }
      try {
        text.value = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
        if (text.value.trim() === '') problem.value = 'The file is empty.';
      } catch {
        problem.value = 'The file is not a text in UTF-8, so it is no template.';
      }
    },
    paste: (typed) => {
      problem.value = '';
      text.value = typed;
    },
    clear: () => {
      text.value = '';
      problem.value = '';
    },
  };
}
