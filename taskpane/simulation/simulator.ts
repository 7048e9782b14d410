import type { Outcome } from '../../src/photometry/outcome';
import type { Opinion, Question } from './opinion';
import type { Report } from './worker';

/** Answers one question at a time, beside the pane; cancelling drops the question and keeps silent. */
export interface Simulator {
  ask(question: Question, onProgress: (done: number, trials: number) => void): Promise<Outcome<Opinion>>;
  cancel(): void;
}

/** The simulator in a worker of its own, which is made for each question and ended with it. */
export function workerSimulator(): Simulator {
  let worker: Worker | undefined;
  const cancel = () => {
    worker?.terminate();
    worker = undefined;
  };
  return {
    cancel,
    ask: (question, onProgress) => {
      cancel();
      const own = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
      worker = own;
      return new Promise((resolve, reject) => {
        own.addEventListener('message', ({ data }: MessageEvent<Report>) => {
          if (data.kind === 'progress') return onProgress(data.done, data.trials);
          cancel();
          resolve(data.opinion);
        });
        own.addEventListener('error', (event) => {
          cancel();
          reject(new Error(`The simulation stopped: ${event.message || 'its script could not be loaded'}`));
        });
        own.postMessage(question);
      });
    },
  };
}
