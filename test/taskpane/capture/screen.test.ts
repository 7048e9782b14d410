import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { arrange } from '../../../taskpane/capture/order';
import { ANSWER_MS, createScreen, type Screen } from '../../../taskpane/capture/screen';
import { createSettings, type Settings, type SettingsValues } from '../../../taskpane/capture/settings';
import type { Step } from '../../../taskpane/capture/task';
import type { Channel, Facts, Shown, ToFields } from '../../../taskpane/fields/protocol';
import { channelEnds } from '../fields/channel';
import { runHost } from '../scenes';
import { guided } from './guided';
import { runTaskOf, TestShelf } from './scene';

let steps: readonly Step[];
let settings: Settings;
let screen: Screen;
let fields: Channel;
/** What the fields window was told to show: "white 5" with the mark at point 5, "white" without. */
let shows: string[];
let isAnswering: boolean;

const FACTS: Facts = {
  drawn: { width: 1920, height: 1080 },
  dpr: 1,
  isFullScreen: true,
  isCovering: true,
  isScaled: false,
  isVisible: true,
  findings: [],
};
const step = (key: string) => steps.find((one) => one.key === key)!;
const WHITE = 'WhiteReadings/1/1';
const RED = 'RedReadings/0/0';

/** A fields window that comes up and does as it is told. */
function openFields(shown: Shown | null = null): void {
  fields.postMessage({ kind: 'state', shown, facts: FACTS });
}
function create(chosen: Partial<SettingsValues>): void {
  const [ours, theirs] = channelEnds(2);
  fields = theirs!;
  shows = [];
  isAnswering = true;
  fields.addEventListener('message', ({ data }) => {
    const message = data as ToFields;
    if (message.kind !== 'show') return;
    shows.push(message.marker ? `${message.field} ${message.marker.number}` : message.field);
    const { field, marker } = message;
    if (isAnswering)
      fields.postMessage({ kind: 'shown', id: message.id, shown: { field, marker }, facts: FACTS });
  });
  settings = createSettings(new TestShelf(), 'settings');
  settings.change(chosen);
  screen = createScreen(settings, 'pair', () => ours!);
}

beforeEach(async () => {
  vi.useFakeTimers();
  steps = arrange((await runTaskOf()).groups, false);
});
afterEach(() => {
  screen.stop();
  vi.useRealTimers();
});

describe('a fields window on a second screen', () => {
  beforeEach(() => create({ screen: 'second screen', markSeconds: 4 }));

  it('follows: the mark comes with the field, and goes by itself before the reading', async () => {
    screen.show(step(WHITE));
    openFields();
    expect(shows).toEqual(['white 5']);
    expect([screen.isMarked.value, screen.isClear()]).toEqual([true, false]);
    await vi.advanceTimersByTimeAsync(4000);
    expect(shows).toEqual(['white 5', 'white']);
    expect([screen.isMarked.value, screen.isClear()]).toEqual([false, true]);
    expect(screen.field.value).toBe('white');
  });

  it('shows the next field with the next reading', () => {
    openFields();
    screen.show(step(WHITE));
    screen.show(step(RED));
    expect(shows).toEqual(['white 5', 'red 1']);
    expect(screen.field.value).toBe('red');
  });

  it('the mark is taken away at once when asked', () => {
    openFields();
    screen.show(step(WHITE));
    screen.hush();
    expect(shows).toEqual(['white 5', 'white']);
    screen.hush();
    expect(shows).toHaveLength(2);
  });

  it('the one ambient reading has no mark: any place will do', () => {
    openFields();
    screen.show(step('AmbientReadings/0/0'));
    expect(shows).toEqual(['ambient']);
    expect(screen.isMarked.value).toBe(false);
  });

  it('that does not answer is said to be silent, and is trusted again when it does', async () => {
    openFields();
    isAnswering = false;
    screen.show(step(WHITE));
    await vi.advanceTimersByTimeAsync(ANSWER_MS);
    expect([screen.state.value, screen.field.value]).toEqual(['silent', undefined]);
    isAnswering = true;
    openFields();
    expect([screen.state.value, screen.field.value]).toEqual(['linked', 'white']);
  });

  it('that was closed is known to be', () => {
    openFields();
    fields.postMessage({ kind: 'closed' });
    expect(screen.state.value).toBe('silent');
  });

  it('tells what is wrong with it', () => {
    const findings = [
      { kind: 'scaled', text: 'The browser scales the page.' },
    ] as unknown as Facts['findings'];
    fields.postMessage({ kind: 'state', shown: null, facts: { ...FACTS, findings } });
    expect(screen.findings.value).toEqual(['The browser scales the page.']);
  });
});

describe('a field shown by hand', () => {
  beforeEach(() => create({ screen: 'by hand' }));

  it('is not touched, and there is no mark to wait for', () => {
    openFields();
    screen.show(step(WHITE));
    expect(shows).toEqual([]);
    expect([screen.isMarked.value, screen.isClear()]).toEqual([false, true]);
  });
});

describe('a mirrored screen', () => {
  beforeEach(() => create({ screen: 'mirrored', markSeconds: 3 }));

  it('has the strip until the time is over, and then the field alone', async () => {
    screen.show(step(WHITE));
    expect([screen.isMarked.value, screen.isClear()]).toEqual([true, false]);
    await vi.advanceTimersByTimeAsync(3000);
    expect([screen.isMarked.value, screen.isClear()]).toEqual([false, true]);
  });

  it('a key brings the strip back, and the display may have been read by then', async () => {
    screen.show(step(WHITE));
    await vi.advanceTimersByTimeAsync(3000);
    screen.wake();
    expect([screen.isMarked.value, screen.isClear()]).toEqual([true, true]);
    await vi.advanceTimersByTimeAsync(3000);
    expect(screen.isMarked.value).toBe(false);
  });
});

describe('the mark of a reading', () => {
  it('comes once: not again when the sheet is read anew, nor when a sound is switched on', async () => {
    create({});
    const host = await runHost();
    const run = await guided(host, { settings: { screen: 'mirrored', markSeconds: 4 } });
    expect(run.screen.isMarked.value).toBe(true);
    await vi.advanceTimersByTimeAsync(4000);
    expect(run.screen.isMarked.value).toBe(false);
    // Somebody else types into the same sheet while the display is read.
    host.put(host.active, 'RedReadings', [[100]]);
    await vi.advanceTimersByTimeAsync(1000);
    expect(run.store.steps.value.find(({ key }) => key === RED)?.value).toBe(100);
    expect(run.screen.isMarked.value).toBe(false);
    run.press('s');
    expect(run.screen.isMarked.value).toBe(false);
    run.press('ArrowDown');
    expect(run.screen.isMarked.value).toBe(true);
    run.stop();
  });
});
