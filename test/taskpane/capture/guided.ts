import type { Host } from '../../../src/excel/host';
import { createJournal } from '../../../taskpane/capture/journal';
import { commandOf } from '../../../taskpane/capture/keys';
import { createOutbox } from '../../../taskpane/capture/outbox';
import { createScreen, type Screen } from '../../../taskpane/capture/screen';
import { type CaptureService, createCaptureService } from '../../../taskpane/capture/service';
import { createSettings, type SettingsValues } from '../../../taskpane/capture/settings';
import { type CaptureStore, createCapture } from '../../../taskpane/capture/store';
import { createTroubles } from '../../../taskpane/store/trouble';
import { createWorkbook } from '../../../taskpane/store/workbook';
import { channelEnds } from '../fields/channel';
import { TestShelf } from './scene';

export interface Guided {
  readonly store: CaptureStore;
  readonly service: CaptureService;
  readonly screen: Screen;
  /** Tones that were sounded, and texts that were spoken. */
  readonly heard: readonly string[];
  /** Types a number and presses Enter. */
  read(number: string): void;
  /** Presses a key as in the number entry. */
  press(key: string): void;
  /** "white 5": label and number of the point that is asked for. */
  asked(): string;
  /** What stands in the question, or an empty text. */
  question(): string;
  stop(): void;
}

/** Guided capture from the pane's service to the window's store, over a stand-in for the spreadsheet program. */
export async function guided(
  host: Host,
  {
    shelf = new TestShelf(),
    session = 'session',
    settings: chosen = {},
    isBegun = true,
    now = () => Date.UTC(2026, 10, 25, 14, 5, 9),
  }: {
    shelf?: TestShelf;
    session?: string;
    settings?: Partial<SettingsValues>;
    isBegun?: boolean;
    now?: () => number;
  } = {},
): Promise<Guided> {
  const workbook = createWorkbook(host);
  await workbook.start();
  const service = createCaptureService(host, workbook, createTroubles(), { shelf, now });
  service.start();
  service.openHere();
  const settings = createSettings(shelf, 'settings');
  settings.change(chosen);
  const screen = createScreen(settings, 'pair', () => channelEnds(1)[0]!);
  const heard: string[] = [];
  const store = createCapture({
    outbox: createOutbox(service.local.value!, createJournal(shelf, 'window'), now),
    settings,
    screen,
    sound: { taken: () => heard.push('taken'), doubtful: () => heard.push('doubtful') },
    voice: { isThere: true, say: (text) => heard.push(text), hush: () => undefined },
    shelf,
    prefix: '',
    session,
    now,
  });
  store.start();
  await settled();
  if (isBegun && store.stage.value === 'before') store.begin(store.task.value!.mode);
  await settled();
  const press = (key: string) => {
    const command = commandOf({ key }, store.text.value);
    if (command) store.command(command);
    else store.type(store.text.value + key);
  };
  return {
    store,
    service,
    screen,
    heard,
    press,
    read: (number) => {
      for (const digit of number) press(digit);
      press('Enter');
    },
    asked: () => {
      const step = store.current.value;
      return step ? `${step.label} ${step.number}` : '';
    },
    question: () => store.asking.value?.message ?? '',
    stop: () => {
      store.stop();
      service.stop();
      workbook.stop();
    },
  };
}

/** Lets messages and calls that are on their way arrive. */
export async function settled(): Promise<void> {
  for (let i = 0; i < 100; i++) await Promise.resolve();
}
