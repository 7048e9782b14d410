import { describe, expect, it } from 'vitest';
import { runPlan } from '../../../src/sheets/run';
import type { RunSetup } from '../../../src/sheets/runsetup';
import { runTask } from '../../../taskpane/capture/runtask';
import { effortOf, readingsOfForm } from '../../../taskpane/setup/effort';
import { createSetupForm } from '../../../taskpane/setup/form';
import { textsOfSetup } from '../../../taskpane/setup/fromsetup';
import { FakeHost } from '../fakehost';
import { SETUP } from '../scenes';

const CASES: readonly (readonly [string, Partial<RunSetup>])[] = [
  ['as usual', {}],
  ['white only, no ambient', { colour: 'none', ambient: 'none', black: false }],
  [
    'tiled, ambient at each point, corners',
    { colour: 'tiled patterns', ambient: 'nine points', corners: true },
  ],
  ['everything, read twice', { black: true, checkerboard: true, corners: true, repeats: 2 }],
];

describe('how many readings a run takes is said before it is built', () => {
  it.each(CASES)('%s: as many as guided capture asks for', async (_, more) => {
    const setup = { ...SETUP, ...more };
    const host = new FakeHost();
    const { sheet } = await host.build(runPlan(setup, 'run00001'));
    const asked = runTask(await host.read(sheet)).groups.flatMap(({ steps }) => steps).length;
    const form = createSetupForm('2026-11-25');
    form.take(textsOfSetup(setup));
    expect(readingsOfForm(form.texts.value)).toBe(asked);
  });

  it('in readings and minutes', () => {
    expect(
      effortOf({
        colour: 'full fields',
        ambient: 'once',
        black: 'no',
        checkerboard: 'no',
        corners: 'no',
        repeats: '1',
      }),
    ).toBe('38 readings, about 6 minutes.');
  });
});

describe('the set-up of a sheet comes back into the form', () => {
  it('whole, but for serial number and day, and nobody is asked what a point means', () => {
    const setup: RunSetup = {
      ...SETUP,
      serial: 'K-1',
      image: { shape: 'rectangle', known: 'width', length: 1.234, unit: 'm', across: 16, down: 9 },
      meter: { ...SETUP.meter, name: 'Meter 3 (invented)', calibration: 1.012 },
      uncertainty: { ...SETUP.uncertainty, ofReading: 0.04 },
    };
    const form = createSetupForm('2026-11-25');
    form.take(textsOfSetup(setup));
    expect(form.unfit.value).toEqual([]);
    expect(form.setup.value).toEqual({ ...setup, serial: '', date: '2026-11-25' });
  });
});
