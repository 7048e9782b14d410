import { createJournal } from './journal';
import type { PaneLink } from './messages';
import { randomName } from './names';
import { createOutbox } from './outbox';
import { createScreen } from './screen';
import { createSettings, type ScreenKind } from './settings';
import { browserShelf } from './shelf';
import { createSound } from './sound';
import { type CaptureStore, createCapture } from './store';
import { createVoice } from './voice';

/**
 * Guided capture over a link to the pane, with everything the browser gives.
 * @param screens kinds of the projector's screen that make sense where it runs
 */
export function createBrowserCapture(
  link: PaneLink,
  prefix: string,
  screens?: readonly ScreenKind[],
): CaptureStore {
  const shelf = browserShelf();
  const settings = createSettings(shelf, `${prefix}settings`, screens);
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
