import { cleanup, configure, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { spotPlan } from '../../../src/sheets/spot';
import { App } from '../../../taskpane/app';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';

configure({ asyncUtilTimeout: 5000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

it('the pane tells which unit is brighter, as soon as the spot check in front has readings', async () => {
  const host = new FakeHost();
  const { sheet } = await host.build(
    spotPlan(
      {
        title: 'Two halls (invented)',
        units: ['A (invented)', 'B (invented)'],
        reference: 'first',
        ambient: true,
        place: '',
        measuredBy: '',
        date: '',
        meter: defaultRunSetup().meter,
      },
      'spot1',
    ),
  );
  const store = createStore(host);
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('sheet');
  expect(await screen.findByText(/^No unit has a reading yet\./)).toBeTruthy();
  host.put(sheet, 'WhiteRelative', [[1], [1.034]]);
  host.put(sheet, 'ColourRelative', [[1], [0.97]]);
  const best = await screen.findByText('white 103 %, colour 97 %');
  expect(best.previousElementSibling!.textContent).toBe('B (invented)');
  expect(
    screen.getByText(/^2 of 2 units, the brightest first; the first unit counts as 100 %\./),
  ).toBeTruthy();
  host.active = 'Sheet1';
  await store.workbook.look();
  await waitFor(() => expect(screen.queryByText('white 103 %, colour 97 %')).toBeNull());
});
