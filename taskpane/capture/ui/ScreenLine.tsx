import type { CaptureStore } from '../store';
import look from './capture.module.css';
import own from './ScreenLine.module.css';

/** What the projector's screen shows, where this window knows it. */
export function ScreenLine({ store }: { readonly store: CaptureStore }) {
  const { screen, settings } = store.parts;
  const state = screen.state.value;
  if (settings.now.value.screen !== 'second screen') return null;
  if (state === 'off') {
    return (
      <p class={`${own.screen} ${look.trouble}`}>
        No fields window follows yet: open it under Options. If it opened in another program it cannot be
        reached from here; show each field there by hand.
      </p>
    );
  }
  if (state === 'silent') {
    return (
      <p class={`${own.screen} ${look.trouble}`}>
        The fields window does not answer: is it closed, hidden or in another browser? Show the field there by
        hand.
      </p>
    );
  }
  return (
    <div class={own.screen}>
      <p>
        {screen.isMarked.value
          ? 'Mark on the screen: put the sensor there.'
          : 'Mark gone: read the display now.'}
      </p>
      {screen.findings.value.length > 0 && (
        <ul>
          {screen.findings.value.map((finding) => (
            <li key={finding}>{finding}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
