import { cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { meterCheckPlan } from '../../../src/sheets/metercheck';
import { defaultMeterCheck } from '../../../src/sheets/metercheck/setup';
import { keptMeters } from '../../../src/template/meters';
import { App } from '../../../taskpane/app';
import { newRunOf } from '../../../taskpane/run/newrun';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { putResult } from '../scenes';
import { unfold } from '../unfold';

/* A meter is stated once in a workbook, and what a check of it found is not typed again. Names and figures are invented. */

configure({ asyncUtilTimeout: 20_000 });

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

async function open(host: FakeHost, page: 'run' | 'home', today = '2026-11-25'): Promise<Store> {
  cleanup();
  const store = createStore(host, { today });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open(page);
  if (page === 'run') {
    await screen.findByText('As printed in the meter’s data sheet', { exact: false });
    await unfold();
  }
  return store;
}
const field = (label: RegExp) => screen.getByLabelText<HTMLInputElement>(label);
const type = (label: RegExp, text: string) => fireEvent.input(field(label), { target: { value: text } });
const press = async (name: string | RegExp) => fireEvent.click(await screen.findByRole('button', { name }));

it('a meter that is kept once is chosen by name in the next form, and reminds of its calibration', async () => {
  const host = new FakeHost();
  await open(host, 'run');
  type(/^Meter$/, 'Meter 1 (invented)');
  type(/^Meter, ± of reading/, '3');
  type(/^Meter, ± digits/, '4');
  type(/^Calibration due on/, '2026-11-01');
  await press('Keep as my meter');
  await screen.findByText('“Meter 1 (invented)” is kept in this workbook.');
  const kept = keptMeters(host.names);
  expect(kept.ok && kept.meters).toMatchObject([
    {
      meter: { name: 'Meter 1 (invented)', dueOn: '2026-11-01' },
      uncertainty: { ofReading: 0.03, digits: 4 },
    },
  ]);

  // The next morning, with an empty form.
  await open(host, 'run');
  expect(field(/^Meter, ± digits/).value).toBe('');
  fireEvent.change(await screen.findByLabelText('My meter'), { target: { value: 'Meter 1 (invented)' } });
  await waitFor(() => expect(field(/^Meter, ± digits/).value).toBe('4'));
  expect(field(/^Meter, ± of reading/).value).toBe('3');
  expect(screen.getByText(/its calibration was due on 2026-11-01/)).toBeTruthy();
  await press('Take it off the list');
  await screen.findByText(/is off the list/);
  expect(host.names).toEqual([]);
});

it('what a meter check found is taken over, and the run says where it is from', async () => {
  const host = new FakeHost();
  const base = defaultMeterCheck();
  const meter = { ...base.meter, name: 'Meter 1 (invented)' };
  const { sheet } = await host.build(meterCheckPlan({ ...base, date: '2026-11-20', meter }, 'check1'));
  const store = await open(host, 'run');
  await press(`Take over what “${sheet}” found`);
  await screen.findByText(`“${sheet}” has found nothing yet: type its readings on that sheet first.`);
  putResult(host, 'Repeatability', 0.0042);
  putResult(host, 'Placing', 0.008);
  await press(`Take over what “${sheet}” found`);
  await waitFor(() =>
    expect(field(/^Meter check/).value).toBe(
      'Meter check of Meter 1 (invented), 2026-11-20: s 0.42 %, placing 0.8 %',
    ),
  );
  expect(newRunOf(store).form.texts.value).toMatchObject({
    meterName: 'Meter 1 (invented)',
    repeatability: '0.42',
    repeatabilityReadings: '10',
    placing: '0.8',
  });
});
