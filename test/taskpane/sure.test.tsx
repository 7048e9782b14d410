import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import { HostError } from '../../src/excel/host';
import { App } from '../../taskpane/app';
import { secondOpinion } from '../../taskpane/simulation/opinion';
import type { Simulator } from '../../taskpane/simulation/simulator';
import { secondOpinionOf } from '../../taskpane/simulation/state';
import { createStore, type Store } from '../../taskpane/store';
import type { FakeHost } from './fakehost';
import { putResult, sure } from './scenes';
import { unfold } from './unfold';

const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

/** Answers in place instead of in a worker, once it is let. */
function slowSimulator() {
  let go: () => void = () => undefined;
  const until = new Promise<void>((resolve) => {
    go = resolve;
  });
  const heard = { cancelled: 0, asked: 0 };
  const simulator: Simulator = {
    ask: async (question, onProgress) => {
      heard.asked++;
      onProgress(250_000, 1_000_000);
      await until;
      return secondOpinion({ ...question, trials: 20_000 }, () => undefined);
    },
    cancel: () => {
      heard.cancelled++;
    },
  };
  return { simulator, heard, go };
}

async function open(host: FakeHost, simulator: Simulator = slowSimulator().simulator): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25', simulator: async () => simulator });
  stores.push(store);
  render(<App store={store} />);
  await store.start();
  store.open('sheet');
  // Comes as a piece of its own: the first time it may take a while.
  await screen.findByText('Second opinion', {}, { timeout: 20_000 });
  return store;
}
const press = (name: RegExp) => fireEvent.click(screen.getByRole('button', { name }));

describe('results', () => {
  it('are shown with U, k and level', async () => {
    const host = await sure();
    putResult(host, 'WhiteLightOutput', 2231.4);
    putResult(host, 'WhiteExpanded', 118.2);
    await open(host);
    expect(screen.getByText('(2230 ± 120) lm', { selector: '.big' })).toBeTruthy();
    expect(screen.getAllByText('k = 2.00, 95.45 %', { selector: 'p' }).length).toBe(3);
  });

  it('say where a U that takes the result for near linear is rough', async () => {
    const host = await sure();
    host.put(host.active, 'UniformityTrust', [['U is rough: 2 other points lie near. Read more often.']]);
    host.put(host.active, 'ContrastTrust', [['Near linear: black is known well enough.']]);
    await open(host);
    const rough = screen.getAllByText('U is rough');
    expect(rough).toHaveLength(1);
    expect(rough[0]!.closest('dl > div')!.textContent).toMatch(
      /^Uniformity, min ÷ max of nine.*%.*2 other points lie near/,
    );
  });

  it('have a decision whose picture is told in words', async () => {
    await open(await sure());
    const white = await screen.findByRole('region', { name: /White light output: pass/ });
    expect(within(white).getByRole('img').getAttribute('aria-label')).toMatch(
      /limit 2400 lm, guard band up to \d+ lm and down to \d+ lm: pass/,
    );
    // Hatched, dashed, dotted: nothing is told by colour alone.
    expect(white.querySelector('pattern')).toBeTruthy();
    expect(within(white).getByText(/Probability to conform 99.8 %/)).toBeTruthy();
    expect(within(white).getByText(/Hatched is its guard band: the dot decides/)).toBeTruthy();
    expect(screen.getByText(/Probability to conform under 0.1 %/)).toBeTruthy();
  });

  it('have contributors of each result, by words and numbers', async () => {
    await open(await sure());
    const section = screen.getByRole('region', { name: 'What makes it uncertain' });
    expect(within(section).getAllByRole('listitem')[0]!.textContent).toMatch(/The meter.*42 %/);
    fireEvent.change(within(section).getByLabelText('Result'), { target: { value: 'Colour' } });
    await waitFor(() =>
      expect(within(section).getAllByRole('listitem')[0]!.textContent).toMatch(
        /Meter and colour of the light.*35 %/,
      ),
    );
    expect(within(section).getByText(/What would help most/)).toBeTruthy();
  });

  it('say how many values were assumed, and which', async () => {
    await open(await sure());
    const list = screen.getByText(/One value was assumed/).closest('details')!;
    expect(list.textContent).toContain('± 10 digits');
  });
});

describe('the second opinion', () => {
  it('shows its progress, then all three side by side', async () => {
    const { simulator, go } = slowSimulator();
    await open(await sure(), simulator);
    press(/Check by simulation/);
    expect(await screen.findByText('25 % of a million trials')).toBeTruthy();
    go();
    expect(await screen.findByText(/model computed afresh .* agree/)).toBeTruthy();
    const table = screen.getByRole('table', { name: /white light output, lm/i });
    expect(
      within(table)
        .getAllByRole('row')
        .map((row) => row.firstChild?.textContent),
    ).toEqual(['', 'sheet', 'model', 'simulation, symmetric', 'simulation, shortest']);
  });

  it('can be cancelled, and an answer that comes later is not shown', async () => {
    const { simulator, heard, go } = slowSimulator();
    const store = await open(await sure(), simulator);
    press(/Check by simulation/);
    await screen.findByText('25 % of a million trials');
    press(/^Cancel$/);
    expect(await screen.findByRole('button', { name: /Check by simulation/ })).toBeTruthy();
    expect(heard.cancelled).toBe(1);
    go();
    press(/Check by simulation/);
    await waitFor(() => expect(heard.asked).toBe(2));
    await waitFor(() => expect(secondOpinionOf(store).opinion.value?.trials).toBe(20_000));
  });

  it('is asked for once, also by two clicks while the sheet is read', async () => {
    const { simulator, heard, go } = slowSimulator();
    const store = await open(await sure(), simulator);
    await Promise.all([
      secondOpinionOf(store).ask(),
      secondOpinionOf(store).ask(),
      waitFor(() => expect(heard.asked).toBe(1)).then(go),
    ]);
    expect(secondOpinionOf(store).opinion.value?.trials).toBe(20_000);
    expect(secondOpinionOf(store).progress.value).toBeUndefined();
  });

  it('goes when the sheet changes', async () => {
    const { simulator, go } = slowSimulator();
    go();
    const host = await sure();
    await open(host, simulator);
    press(/Check by simulation/);
    await screen.findByText(/model computed afresh/);
    putResult(host, 'AmbientHalf', 3);
    expect(await screen.findByText('The sheet has changed since it was checked.')).toBeTruthy();
    expect(screen.queryByRole('table', { name: /white light output/i })).toBeNull();
  });

  it('says what is missing, and what failed', async () => {
    const host = await sure();
    const failing: Simulator = {
      ask: () => Promise.reject(new Error('The simulation stopped')),
      cancel: () => undefined,
    };
    const store = await open(host, failing);
    press(/Check by simulation/);
    expect(await screen.findByText('The simulation stopped')).toBeTruthy();
    putResult(host, 'ImageWidth', '');
    await secondOpinionOf(store).ask();
    expect(await screen.findByText(/no number for the image width/)).toBeTruthy();
    host.failNext('read', new HostError('busy', 'Busy.', 'Wait.', 'x'));
    await secondOpinionOf(store).ask();
    expect(await screen.findByText('Busy.')).toBeTruthy();
  });

  it('has no violation of WCAG that axe can find', async () => {
    const { simulator, go } = slowSimulator();
    go();
    await open(await sure(), simulator);
    press(/Check by simulation/);
    await screen.findByText(/model computed afresh/);
    await unfold();
    const { violations } = await axe.run(document.body, {
      rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
    });
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual(
      [],
    );
  });
});
