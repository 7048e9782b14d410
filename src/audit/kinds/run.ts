import { good } from '../../photometry/outcome';
import { RUN_VERSION, runPlan, runResults } from '../../sheets/run';
import { uncertaintyResults } from '../../sheets/run/verdict';
import type { RunSetup } from '../../sheets/runsetup';
import { checkPlausible } from '../check/plausible';
import { recomputeRun } from '../recompute/run';
import { setupOf } from '../setupof';
import { type SheetView, valueAt } from '../view';
import { keptPlans, remembered } from './cells';
import type { KindAudit, Recomputed, ResultCell } from './kind';

const kept = keptPlans();

function planOf(setup: RunSetup) {
  const { colour, ambient, black, checkerboard, corners, image, repeats } = setup;
  const key = JSON.stringify([colour, ambient, black, checkerboard, corners, image.shape, repeats]);
  return kept(key, () => runPlan(setup, 'expected'));
}

export const runSetup = remembered(setupOf);

/**
 * Every result of a run sheet from its readings, by the result's name. Of a sheet of an earlier layout they are what it
 * shows: it is checked by itself, by the methods of its time.
 */
export const runRecomputed = remembered((view): ReadonlyMap<string, Recomputed> => {
  if (view.identity?.version === RUN_VERSION) return recomputeRun(view, runSetup(view));
  return new Map(
    results(view).flatMap(({ name, at }) => {
      const value = valueAt(view, at);
      return typeof value === 'number' || typeof value === 'string' ? [[name, good(value)] as const] : [];
    }),
  );
});

function results(view: SheetView): ResultCell[] {
  const setup = runSetup(view);
  return [...runResults(setup), ...uncertaintyResults(setup)].flatMap(({ name, label, unit }) => {
    const [at, twinAt] = ['', 'plain'].map((end) => view.places.get(`${name}${end}`.toLowerCase())?.address);
    if (at === undefined || at.includes(':')) return [];
    return [{ name, label, unit, at, ...(twinAt === undefined || twinAt.includes(':') ? {} : { twinAt }) }];
  });
}

export const RUN: KindAudit = {
  version: RUN_VERSION,
  plan: (view) => planOf(runSetup(view)),
  results,
  recompute: (view) => {
    const own = runRecomputed(view);
    return new Map(
      results(view).flatMap(({ name, at, twinAt }) => {
        const value = own.get(name);
        if (!value) return [];
        return [[at, value] as const, ...(twinAt === undefined ? [] : [[twinAt, value] as const])];
      }),
    );
  },
  findings: (view) => checkPlausible(view, runSetup(view)),
};
