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
  /** Counts the texts: a file that is still read is an earlier one. */
  let texts = 0;

  function put(next: string, about = ''): void {
    texts++;
    text.value = next;
    problem.value = about;
  }

  return {
    text,
    problem,
    read: computed(() => (text.value.trim() === '' ? undefined : readTemplate(text.value))),
    choose: async (file) => {
      // A character takes at most four bytes.
      if (file.size > 4 * MOST_CHARACTERS) {
        put('', `“${file.name}” has ${file.size} bytes: no template is that large, so it was not read.`);
        return;
      }
      put('');
      const own = texts;
      try {
        const found = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
        if (own === texts) put(found, found.trim() === '' ? `“${file.name}” is empty.` : '');
      } catch {
        if (own === texts) put('', `“${file.name}” is not a text in UTF-8, so it is no template.`);
      }
    },
    paste: put,
    clear: () => put(''),
  };
}
