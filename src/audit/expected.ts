import type { Plan } from '../sheets/plan';
import { RUN_VERSION, runPlan } from '../sheets/run';
import type { RunSetup } from '../sheets/runsetup';
import { setupOf } from './setupof';
import type { SheetView } from './view';

/** What a sheet ought to be, or why that cannot be said. */
export type Expected =
  | { readonly known: true; readonly plan: Plan; readonly setup: RunSetup }
  | { readonly known: false; readonly why: string };

/** Plans by what the layout depends on: 200 runs of one kind are planned once. */
const PLANS_KEPT = 64;
const plans = new Map<string, Plan>();

/**
 * The plan a sheet was built from, found again from its hidden mark and its names. Input values in it are those
 * of some sheet of the same layout and are not to be compared.
 */
export function expectedOf(view: SheetView): Expected {
  const { identity } = view;
  if (!identity) return { known: false, why: 'Its hidden mark cannot be read.' };
  const { kind, version } = identity;
  if (kind !== 'run') return { known: false, why: `Sheets of the kind "${kind}" are not known here.` };
  if (version !== RUN_VERSION) {
    const age = version > RUN_VERSION ? 'newer than this program' : 'older than this program still knows';
    return {
      known: false,
      why: `Its layout has version ${version}, ${age} (which has ${RUN_VERSION}).`,
    };
  }
  const setup = setupOf(view);
  return { known: true, setup, plan: planOf(setup) };
}

function planOf(setup: RunSetup): Plan {
  const { colour, ambient, black, checkerboard, corners, image, repeats } = setup;
  const key = JSON.stringify([colour, ambient, black, checkerboard, corners, image.shape, repeats]);
  const kept = plans.get(key);
  if (kept) return kept;
  const plan = runPlan(setup, 'expected');
  if (plans.size >= PLANS_KEPT) plans.clear();
  plans.set(key, plan);
  return plan;
}
