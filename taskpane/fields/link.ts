import { effect } from '@preact/signals';
import { findingsOf, isCovering, isScaled, type Surface } from '../../src/fields/surface';
import { type Channel, type Facts, type FromFields, readToFields } from './protocol';
import type { FieldsStore } from './store';

function factsOf(surface: Surface): Facts {
  const { drawn, dpr, isFullScreen, isVisible } = surface;
  return {
    drawn,
    dpr,
    isFullScreen,
    isVisible,
    isCovering: isCovering(surface),
    isScaled: isScaled(surface),
    findings: findingsOf(surface),
  };
}

/**
 * The fields window's end of the channel: obeys, says when a field is on the screen, and tells what changes.
 *
 * @param afterPaint calls back once what is drawn now has been put on the screen
 * @param close closes the window
 * @returns says goodbye and lets go of the channel
 */
export function serve(
  channel: Channel,
  store: FieldsStore,
  afterPaint: (then: () => void) => void,
  close: () => void,
): () => void {
  const say = (message: FromFields) => channel.postMessage(message);
  const facts = () => store.surface.value && factsOf(store.surface.value);
  const sayState = () => {
    const known = facts();
    if (known) say({ kind: 'state', shown: store.shown.value, facts: known });
  };
  let latest = 0;
  const listen = ({ data }: MessageEvent) => {
    const message = readToFields(data);
    if (message?.kind === 'refused') say(message);
    if (message?.kind === 'ask') sayState();
    if (message?.kind === 'close') close();
    if (message?.kind !== 'show') return;
    const { id, field, marker } = message;
    latest = id;
    store.obey({ field, marker });
    const asked = store.shown.value;
    afterPaint(() => {
      const known = facts();
      // Meanwhile another field may have been asked for, here or there.
      if (known && asked && id === latest && store.shown.value === asked)
        say({ kind: 'shown', id, shown: asked, facts: known });
    });
  };
  channel.addEventListener('message', listen);
  const stopTelling = effect(sayState);
  return () => {
    stopTelling();
    channel.removeEventListener('message', listen);
    say({ kind: 'closed' });
    channel.close();
  };
}

/** Two frames on: the first carries what was drawn, the second begins when it was handed over. A hidden window has none. */
export function afterPaint(then: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(then));
}
