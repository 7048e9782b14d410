import type { Outcome } from '../../src/photometry/outcome';
import { type Opinion, type Question, secondOpinion } from './opinion';

/** What the worker tells the pane. */
export type Report =
  | { readonly kind: 'progress'; readonly done: number; readonly trials: number }
  | { readonly kind: 'opinion'; readonly opinion: Outcome<Opinion> };

/*
 * A million trials take seconds: they run beside the pane, which ends this worker to cancel them. One question,
 * one worker.
 */
self.addEventListener('message', ({ data }: MessageEvent<Question>) => {
  const tell = (report: Report) => self.postMessage(report);
  const opinion = secondOpinion(data, (done, trials) => tell({ kind: 'progress', done, trials }));
  tell({ kind: 'opinion', opinion });
});
