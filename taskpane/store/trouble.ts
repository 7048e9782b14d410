import { type ReadonlySignal, signal } from '@preact/signals';
import { HostError } from '../../src/excel/host';

/** Something that went wrong, in words a person can act on. */
export interface Trouble {
  readonly message: string;
  readonly remedy: string;
  /** For a report: what the host said in its own terms. */
  readonly detail: string;
}

type Attempt<T> = { readonly ok: true; readonly value: T } | { readonly ok: false };

/** One action at a time, and the last trouble with it. */
export interface Troubles {
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  /** What is going on, "Building the run sheet"; empty when nothing is. */
  readonly busy: ReadonlySignal<string>;
  /** Does something a person asked for. A failure becomes `trouble`; a second action meanwhile is not begun. */
  attempt<T>(doing: string, action: () => Promise<T>): Promise<Attempt<T>>;
  /** Something to know about what was done all the same. */
  tell(trouble: Trouble): void;
  dismiss(): void;
}

export function createTroubles(): Troubles {
  const trouble = signal<Trouble | undefined>(undefined);
  const busy = signal('');
  return {
    trouble,
    busy,
    attempt: async (doing, action) => {
      if (busy.peek() !== '') return { ok: false };
      busy.value = doing;
      trouble.value = undefined;
      try {
        return { ok: true, value: await action() };
      } catch (error) {
        trouble.value = troubleOf(error, doing);
        return { ok: false };
      } finally {
        busy.value = '';
      }
    },
    tell: (words) => {
      trouble.value = words;
    },
    dismiss: () => {
      trouble.value = undefined;
    },
  };
}

/** Any failure → words. Whatever is not a `HostError` is a mistake of ours and says so. */
export function troubleOf(error: unknown, doing: string): Trouble {
  if (error instanceof HostError) {
    const { message, remedy, detail, trouble } = error;
    return { message, remedy, detail: [trouble, detail].filter(Boolean).join(': ') };
  }
  return {
    message: `Something unexpected happened (${doing.toLowerCase()}).`,
    remedy: 'Nothing more was done. Try again; if it happens again, please report it with the details below.',
    detail: error instanceof Error ? (error.stack ?? `${error.name}: ${error.message}`) : String(error),
  };
}
