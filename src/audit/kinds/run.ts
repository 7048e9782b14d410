import { RUN_VERSION, runPlan, runResults } from '../../sheets/run';
import { uncertaintyResults } from '../../sheets/run/verdict';
import type { RunSetup } from '../../sheets/runsetup';
import { checkPlausible } from '../check/plausible';
import { setupOf } from '../setupof';
import type { SheetView } from '../view';
import { keptPlans, remembered } from './cells';
import type { KindAudit, ResultCell } from './kind';

const kept = keptPlans();

function planOf(setup: RunSetup) {
  const { colour, ambient, black, checkerboard, corners, image, repeats } = setup;
  const key = JSON.stringify([colour, ambient, black, checkerboard, corners, image.shape, repeats]);
  return kept(key, () => runPlan(setup, 'expected'));
}

const runSetup = remembered(setupOf);

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
  findings: (view) => checkPlausible(view, runSetup(view)),
};
