import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { ProbeResult } from '../../src/excel/selfcheck/probe';
import { PROBES, selfCheck, whereItRan } from '../../src/excel/selfcheck/run';
import { createSaving, type Saving } from '../saving/saving';
import { perStore } from '../store/perstore';
import { reportText, summary } from './report';
import { surroundingsOf } from './surroundings';

/** What the spreadsheet program answers to the questions of the self-check. */
export interface SelfCheckState {
  readonly results: ReadonlySignal<readonly ProbeResult[]>;
  /** What is asked just now, and how far it is; undefined while nothing runs. */
  readonly progress: ReadonlySignal<{ done: number; of: number; words: string } | undefined>;
  readonly said: ReadonlySignal<string>;
  /** Also the questions that take a minute or so. */
  readonly isWhole: ReadonlySignal<boolean>;
  setWhole(isWhole: boolean): void;
  run(): Promise<void>;
  stop(): void;
  /** Offers a small file for saving: nothing tells the pane whether it came, so the person is asked. */
  trySaving(): void;
  readonly saving: Saving;
  /** One text for a report. */
  text(): string;
}

export const selfCheckOf = perStore(({ program, troubles, workbook }): SelfCheckState => {
  const results = signal<readonly ProbeResult[]>([]);
  const progress = signal<{ done: number; of: number; words: string } | undefined>(undefined);
  const said = signal('');
  const isWhole = signal(false);
  const text = () => reportText(results.peek(), whereItRan());
  // By hand or not, the program's own answer is that no file came.
  const saving = createSaving((arrived) => {
    const came = arrived === 'came';
    const answer: ProbeResult = {
      probe: SAVING,
      state: came ? 'as expected' : 'otherwise',
      came: came ? 'it came' : 'nothing came',
      took: 0,
    };
    results.value = [...results.peek().filter(({ probe }) => probe !== SAVING), answer];
    said.value = `${summary(results.peek())}.`;
  });
  let stopping: AbortController | undefined;
  return {
    results: computed(() => results.value),
    progress,
    said,
    isWhole,
    setWhole: (value) => {
      isWhole.value = value;
    },
    run: async () => {
      const probes = PROBES.filter(({ isLong }) => isWhole.peek() || !isLong);
      stopping = new AbortController();
      const { signal: stop } = stopping;
      results.value = [];
      said.value = '';
      saving.clear();
      const attempt = await troubles.attempt('Checking this spreadsheet program', () =>
        selfCheck(surroundingsOf(program), probes, {
          signal: stop,
          begin: ({ title }, done) => {
            progress.value = { done, of: probes.length, words: title };
          },
          ended: (result) => {
            results.value = [...results.peek(), result];
          },
        }),
      );
      progress.value = undefined;
      const words = `${summary(results.peek())}. The scratch sheet is gone again.`;
      if (attempt.ok) said.value = stop.aborted ? `Stopped. ${words}` : words;
      await workbook.look();
    },
    stop: () => stopping?.abort(),
    saving,
    trySaving: () => saving.offer({ name: 'self-check.txt', type: 'text/plain;charset=utf-8', text: text() }),
    text,
  };
});

/** Answered by the person: no program tells whether a file was saved. */
const SAVING = {
  id: 'saving',
  title: 'Saving a file from the pane',
  expects: 'the file is among the downloads',
  means: 'Files cannot be saved from the pane here: copy the text that stands beside every save.',
};
