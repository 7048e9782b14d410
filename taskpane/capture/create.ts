import { createJournal } from './journal';
import type { PaneLink } from './messages';
import { randomName } from './names';
import { createOutbox } from './outbox';
import { createScreen } from './screen';
import { createSettings } from './settings';
import { browserShelf } from './shelf';
import { createSound } from './sound';
import { type CaptureStore, createCapture } from './store';
import { createVoice } from './voice';

/** Guided capture over a link to the pane, with everything the browser gives. */
export function createBrowserCapture(link: PaneLink, prefix: string): CaptureStore {
  const shelf = browserShelf();
  const settings = createSettings(shelf, `${prefix}settings`);
  return createCapture({
    outbox: createOutbox(link, createJournal(shelf, `${prefix}window`)),
    settings,
    screen: createScreen(settings, randomName()),
    sound: createSound(),
    voice: createVoice(),
    shelf,
    prefix,
    session: randomName(),
    now: Date.now,
  });
}
