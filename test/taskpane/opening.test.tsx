import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { OpeningCard } from '../../taskpane/opening/OpeningCard';
import { createStore } from '../../taskpane/store';
import { FakeHost } from './fakehost';

/*
 * Office Add-ins documentation, "Automatically open a task pane with a document": the setting belongs to the document,
 * and a person must be able to switch it off.
 */
afterEach(cleanup);
const PLAN = runPlan(defaultRunSetup(), 'a1');
const box = () => screen.getByLabelText<HTMLInputElement>('Open this pane whenever this workbook is opened');

it('is so from the first sheet of ours on, and stays off once it was switched off', async () => {
  const host = new FakeHost();
  const store = createStore(host);
  await store.host.survey();
  expect(host.opens).toBeUndefined();
  await store.host.build(PLAN);
  await waitFor(() => expect(host.opens).toBe(true));
  render(<OpeningCard store={store} />);
  await waitFor(() => expect(box().checked).toBe(true));
  fireEvent.click(box());
  await waitFor(() => expect(host.opens).toBe(false));
  await store.host.build({ ...PLAN, title: 'Second' });
  await waitFor(() => expect(store.troubles.busy.value).toBe(''));
  expect(host.opens).toBe(false);
});

it('is said where the program opens no pane by itself', async () => {
  const host = new FakeHost();
  host.opens = 'never';
  render(<OpeningCard store={createStore(host)} />);
  expect(await screen.findByText(/This program opens no pane by itself/)).toBeTruthy();
});
