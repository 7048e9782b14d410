import { type ReadonlySignal, signal } from '@preact/signals';
import { type Course, HostError } from '../../src/excel/host';
import type { Troubles } from '../store/trouble';

type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly stopped?: string };

/** Actions that take a while: one at a time, with progress and a way to stop, which is no trouble. */
export interface LongActions {
  /** From 0 to 1; undefined while nothing goes on. */
  readonly progress: ReadonlySignal<number | undefined>;
  /** `stopped` says what stopping came to; a failure has been told already. */
  run<T>(doing: string, action: (course: Course) => Promise<T>): Promise<Outcome<T>>;
  /** Stops the action between two of its parts. */
  stop(): void;
}

export function createLongActions(troubles: Troubles): LongActions {
  const progress = signal<number | undefined>(undefined);
  let stopper: AbortController | undefined;

  async function untilStopped<T>(action: (course: Course) => Promise<T>): Promise<Outcome<T>> {
    const own = new AbortController();
    stopper = own;
    progress.value = 0;
    try {
      const value = await action({
        progress: (done) => {
          progress.value = done;
        },
        signal: own.signal,
      });
      return { ok: true, value };
    } catch (error) {
      if (!(error instanceof HostError) || error.trouble !== 'stopped') throw error;
      return { ok: false, stopped: `${error.message} ${error.remedy}` };
    } finally {
      progress.value = undefined;
      stopper = undefined;
    }
  }

  return {
    progress,
    run: async (doing, action) => {
      const attempt = await troubles.attempt(doing, () => untilStopped(action));
      return attempt.ok ? attempt.value : { ok: false };
    },
    stop: () => stopper?.abort(),
  };
}
