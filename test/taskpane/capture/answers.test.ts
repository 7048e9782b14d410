// @vitest-environment node
import { expect, it } from 'vitest';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { spotPlan } from '../../../src/sheets/spot';
import { runAnswers, spotAnswers } from '../../../taskpane/capture/answers';
import { runTask } from '../../../taskpane/capture/runtask';
import { FakeHost } from '../fakehost';
import { complete, halfway, putResult } from '../scenes';

it('a run that is complete tells its lumens, with their doubt and the decision where the sheet has them', async () => {
  const host = await complete();
  putResult(host, 'WhiteU', 58.9);
  putResult(host, 'WhiteK', 2);
  putResult(host, 'WhiteExpanded', 117.8);
  const reading = await host.read(host.active);
  // GUM 7.2.6: two digits of U, the value to the same place.
  expect(runAnswers(reading)).toEqual([
    { label: 'White light output', text: '(2600 ± 120) lm', decision: '' },
    { label: 'Colour light output', text: '909.4 lm', decision: '' },
    { label: expect.stringMatching(/^Colour.*white/), text: '0.349', decision: '' },
  ]);
  expect(runTask(reading).answers).toEqual(runAnswers(reading));
});

it('what waits for readings is no answer', async () => {
  const host = await halfway();
  expect(runAnswers(await host.read(host.active)).map(({ label }) => label)).toEqual(['White light output']);
});

it('of a spot check the brightest unit comes first, and one without readings not at all', async () => {
  const setup = {
    title: '',
    units: ['A (invented)', 'B (invented)', 'C (invented)'],
    reference: 'first',
    ambient: true,
    place: '',
    measuredBy: '',
    date: '',
    meter: defaultRunSetup().meter,
  } as const;
  const host = new FakeHost();
  const { sheet } = await host.build(spotPlan(setup, 'spot1'));
  host.put(sheet, 'WhiteRelative', [[1], [1.034], ['']]);
  host.put(sheet, 'ColourRelative', [[1], [0.97], ['']]);
  expect(spotAnswers(await host.read(sheet)).map(({ label, text }) => `${label}: ${text}`)).toEqual([
    'B (invented): white 103 %, colour 97 %',
    'A (invented): white 100 %, colour 100 %',
  ]);
});
