import { expect, it } from 'vitest';
import { recomputeRun } from '../../src/audit/recompute/run';
import { setupOf } from '../../src/audit/setupof';
import { viewOf } from '../../src/audit/view';
import { bookOf } from '../../src/sheets/realize';
import { runPlan, runResults } from '../../src/sheets/run';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { byModel } from '../sheets/bymodel';
import { byFunctions, filled, randomRun } from '../sheets/randomrun';

const RUNS = Array.from({ length: 60 }, (_, i) => randomRun(i + 1));

it('finds the set-up a sheet was built from, whatever was chosen', () => {
  for (const run of RUNS) {
    const view = viewOf(bookOf([filled(run)]).sheets[0]!);
    const range = view.places.get('whiterange')!.address.split(':')[0]!;
    const setup = { ...run.setup, meter: { ...run.setup.meter, range: view.sheet.cells[range]!.value } };

    expect(setupOf(view)).toEqual(setup);
  }
});

it('keeps every word and date of a set-up', () => {
  const base = defaultRunSetup();
  const setup = {
    ...base,
    projector: 'Reading room unit (invented)',
    serial: '=1+1',
    mode: 'bright',
    place: 'Branch north',
    measuredBy: 'A. Nobody',
    date: '2026-11-25',
    meter: { ...base.meter, name: 'Meter 3', calibratedOn: '2026-02-28' },
    colour: 'none' as const,
    ambient: 'none' as const,
    black: false,
    rated: { white: 3200, colour: 3000, minimumFraction: 0.9 },
  };
  expect(setupOf(viewOf(bookOf([runPlan(setup, 'a1')]).sheets[0]!))).toEqual(setup);
});

it('works every result out again from the readings alone, equal to the custom functions to 1e-12', () => {
  for (const run of RUNS) {
    const { sheets } = bookOf([filled(run)]);
    // No formula has been calculated: there is nothing but what was typed.
    const view = viewOf(sheets[0]!);
    const found = recomputeRun(view, setupOf(view));
    const results = byFunctions(run);
    const expected = { ...results, ...byModel(run, results) };
    expect([...found.keys()].sort()).toEqual(
      [...runResults(run.setup), ...uncertaintyResults(run.setup)].map(({ name }) => name).sort(),
    );
    for (const [name, outcome] of found) {
      const want = expected[name];
      if (want === 'waiting') {
        // A budget waits where its result is refused.
        expect(outcome.ok, name).toBe(false);
      } else if (typeof want === 'string') {
        expect(outcome.ok ? outcome.value : 'see remarks', name).toBe(want);
      } else {
        expect(outcome.ok, name).toBe(true);
        expect(Math.abs((outcome.ok ? Number(outcome.value) : 0) - want!), name).toBeLessThanOrEqual(
          1e-12 * Math.abs(want!) + 1e-15,
        );
      }
    }
  }
});
