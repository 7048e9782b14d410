import type { FUniver } from '@univerjs/core/facade';

/** Commands after which the engine calculates: the ones its calculation controller listens to. */
const CAUSES = new Set([
  'sheet.mutation.set-range-values',
  'sheet.mutation.move-range',
  'sheet.mutation.move-rows',
  'sheet.mutation.move-columns',
  'sheet.mutation.reorder-range',
  'sheet.mutation.remove-rows',
  'sheet.mutation.remove-col',
  'sheet.mutation.insert-row',
  'sheet.mutation.insert-col',
  'sheet.mutation.set-row-hidden',
  'sheet.mutation.set-row-visible',
  'sheet.mutation.remove-sheet',
  'sheet.mutation.insert-sheet',
  'formula.mutation.set-defined-name',
  'formula.mutation.remove-defined-name',
  'formula.mutation.set-trigger-formula-calculation-start',
]);
/** Given with a write of looks only: the engine does not calculate for it. */
export const STYLE_TRIGGER = 'sheet.command.set-style';
const STYLE_TRIGGERS = new Set([
  STYLE_TRIGGER,
  'sheet.command.set-border',
  'sheet.command.clear-selection-format',
]);
const START = 'formula.mutation.set-formula-calculation-start';
/** A calculation that takes longer has failed inside the engine; the add-in must hear of it. */
const PATIENCE_MS = 600_000;
/** `FormulaExecutedStateType.STOP_EXECUTION`: stopped to start again with newer data. */
const STOPPED = 1;

/**
 * Knows whether a calculation is still to come. The engine collects changes for a tenth of a second and then
 * calculates; its own "when computing is complete" can answer before that has begun.
 */
export class Calculation {
  #written = 0;
  #started = 0;
  #finished = 0;
  #waiting: { readonly until: number; readonly resolve: () => void }[] = [];
  readonly #finishedListeners: (() => void)[] = [];

  constructor(api: FUniver) {
    api.onCommandExecuted((command, options) => {
      if (command.id === START) this.#started = this.#written;
      else if (isCause(command.id, command.params as CauseParams, options?.onlyLocal === true))
        this.#written++;
    });
    api.getFormula().calculationEnd((state) => {
      if ((state as number) === STOPPED) return;
      this.#finished = this.#started;
      for (const listener of this.#finishedListeners) listener();
      const isDone = ({ until }: { readonly until: number }) => until <= this.#finished;
      const done = this.#waiting.filter(isDone);
      this.#waiting = this.#waiting.filter((one) => !isDone(one));
      for (const { resolve } of done) resolve();
    });
  }

  /** Says that a calculation will come although no command asked for it yet. */
  expect(): void {
    this.#written++;
  }
  get isPending(): boolean {
    return this.#written !== this.#finished;
  }
  /** Resolves when everything written so far has been calculated, also while a person types on. */
  settled(): Promise<void> {
    if (!this.isPending) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const giveUp = () => reject(new Error(`The calculation did not end within ${PATIENCE_MS / 1000} s.`));
      const timer = setTimeout(giveUp, PATIENCE_MS);
      const settle = () => {
        clearTimeout(timer);
        resolve();
      };
      this.#waiting.push({ until: this.#written, resolve: settle });
    });
  }
  onFinished(listener: () => void): void {
    this.#finishedListeners.push(listener);
  }
}

interface CauseParams {
  readonly trigger?: string;
}
function isCause(id: string, params: CauseParams | undefined, onlyLocal: boolean): boolean {
  if (!CAUSES.has(id)) return false;
  if (id !== 'sheet.mutation.set-range-values') return true;
  return !onlyLocal && !STYLE_TRIGGERS.has(params?.trigger ?? '');
}
