import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { explain } from '../../src/photometry/outcome';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';
import type { Opinion } from './opinion';
import type { Simulator } from './simulator';

/** A run computed afresh from its readings, and simulated, beside the pane. */
interface SecondOpinion {
  /** Part of the trials done, 0 to 1; undefined while nothing is simulated. */
  readonly progress: ReadonlySignal<number | undefined>;
  /** Only while the sheet is as it was when it was asked about. */
  readonly opinion: ReadonlySignal<Opinion | undefined>;
  /** The sheet was checked before, and has changed since. */
  readonly isStale: ReadonlySignal<boolean>;
  /** Why there is none. */
  readonly problem: ReadonlySignal<string>;
  ask(): Promise<void>;
  cancel(): void;
}

/** As many as JCGM 101 7.2.2 asks for where a 95 % interval is wanted to two digits. */
const TRIALS = 1_000_000;
/** Any fixed number: whoever checks again gets the same figures. It is told with them. */
const SEED = 20_080_901;

/** It outlives looking at another page, but not the pane: a simulation under way ends with it. */
export const secondOpinionOf = perStore(createSecondOpinion);

function createSecondOpinion({ host, workbook, troubles, simulator, onStop }: Store): SecondOpinion {
  const progress = signal<number | undefined>(undefined);
  const problem = signal('');
  const answered = signal<{ readonly of: string; readonly opinion: Opinion } | undefined>(undefined);
  const now = computed(() => workbook.reading.value && keyOf(workbook.reading.value));
  let running: Simulator | undefined;
  /** Counts the questions: an answer to an earlier one comes too late. */
  let asked = 0;

  async function answer(reading: SheetReading, question: number): Promise<void> {
    const { runInputOf } = await import('../../src/sheets/run/input');
    const input = runInputOf(reading.values);
    if (!input.ok) {
      problem.value = explain(input.problems);
      return;
    }
    running = await simulator();
    if (question !== asked) return;
    const opinion = await running.ask({ ...input.value, trials: TRIALS, seed: SEED }, (done, trials) => {
      if (question === asked) progress.value = done / trials;
    });
    if (question !== asked) return;
    if (opinion.ok) answered.value = { of: keyOf(reading), opinion: opinion.value };
    else problem.value = explain(opinion.problems);
  }

  function cancel(): void {
    asked++;
    running?.cancel();
    progress.value = undefined;
  }
  onStop(cancel);

  return {
    progress,
    problem,
    opinion: computed(() => (answered.value?.of === now.value ? answered.value?.opinion : undefined)),
    isStale: computed(
      () =>
        answered.value !== undefined &&
        answered.value.of !== now.value &&
        answered.value.of.startsWith(`${workbook.reading.value?.id} `),
    ),
    ask: async () => {
      const sheet = workbook.reading.peek()?.sheet;
      if (!sheet || progress.peek() !== undefined) return;
      problem.value = '';
      const attempt = await troubles.attempt('Reading the run', () => host.read(sheet));
      // A second click while the sheet is read is no question.
      if (!attempt.ok) return;
      const question = ++asked;
      progress.value = 0;
      try {
        await answer(attempt.value, question);
      } catch (error) {
        if (question === asked) problem.value = error instanceof Error ? error.message : String(error);
      } finally {
        if (question === asked) progress.value = undefined;
      }
    },
    cancel,
  };
}

/** Everything on the sheet, so that an opinion is not shown beside other readings than it was made of. */
function keyOf({ id, sheet, values }: SheetReading): string {
  return `${id} ${JSON.stringify([sheet, values])}`;
}
