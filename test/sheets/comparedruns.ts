import { cellsOf } from '../../src/sheets/address';
import type { ComparedRun } from '../../src/sheets/comparison';
import { addressesOf } from '../../src/sheets/filled';
import type { Plan } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { BUDGET_IDS } from '../../src/sheets/run/budgetid';
import type { RunSetup } from '../../src/sheets/runsetup';
import { type RandomRun, randomRun } from './randomrun';

/** An invented run read with a given meter from a given image, so that several can share them. */
export function runWith(
  seed: number,
  common: Pick<RunSetup, 'meter' | 'image' | 'uncertainty'> & Partial<Pick<RunSetup, 'gain'>>,
): RandomRun {
  const run = randomRun(seed);
  const setup = { ...run.setup, ...common };
  return { ...run, setup, plan: runPlan(setup, `r${seed}`) };
}

/** A run sheet's plan as a comparison sees the sheet. */
export function comparedRun(plan: Plan, sheet: string, meter = 1, image = 1): ComparedRun {
  const addresses = addressesOf(plan);
  const labels = (id: string) =>
    cellsOf(addresses[`${id}Components`]!).map((at) => String(plan.cells[at]!.value));
  return {
    sheet,
    addresses,
    components: Object.fromEntries(
      BUDGET_IDS.filter((id) => addresses[`${id}Components`]).map((id) => [id, labels(id)]),
    ),
    meter,
    image,
  };
}
