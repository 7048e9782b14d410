import { expect, it } from 'vitest';
import { setupOf } from '../../src/audit/setupof';
import { viewOf } from '../../src/audit/view';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { filled, randomRun } from '../sheets/randomrun';

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
