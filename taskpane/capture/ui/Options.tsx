import { openInBrowser } from '../../../src/excel/browserwindow';
import { formatHash } from '../../fields/address';
import type { ScreenKind } from '../settings';
import type { CaptureStore } from '../store';
import look from './capture.module.css';

const WORDS: Readonly<Record<ScreenKind, string>> = {
  'by hand': 'The field is changed by hand: from a stick, or with the keys of the fields window',
  'second screen': 'A fields window on the projector’s screen follows',
  mirrored: 'The projector shows this window: field behind, a small dark strip before it',
};

/** How this person works: screen, order, sound, voice. */
export function Options({ store }: { readonly store: CaptureStore }) {
  const { settings, screen, voice } = store.parts;
  const now = settings.now.value;
  return (
    <div class={look.column}>
      <fieldset>
        <legend>The projector’s screen</legend>
        {settings.screens.map((value) => (
          <label class={look.check} key={value}>
            <input
              type="radio"
              name="screen"
              value={value}
              checked={now.screen === value}
              // One stop of the Tab key for all of them; arrows go from one to the next.
              tabIndex={now.screen === value ? 0 : -1}
              onChange={() => settings.change({ screen: value })}
            />
            {WORDS[value]}
          </label>
        ))}
        {now.screen === 'second screen' && <FieldsLink store={store} />}
        {now.screen !== 'by hand' && (
          <label>
            Seconds until mark and strip go
            <input
              type="number"
              min="1"
              max="60"
              value={now.markSeconds}
              onInput={(event) => {
                const seconds = event.currentTarget.valueAsNumber;
                if (seconds >= 1 && seconds <= 60) settings.change({ markSeconds: seconds });
              }}
            />
          </label>
        )}
        {now.screen === 'second screen' && screen.state.value === 'linked' && (
          <p class={look.quiet}>The fields window answers.</p>
        )}
      </fieldset>
      <label class={look.check}>
        <input
          type="checkbox"
          checked={now.serpentine}
          onChange={(event) => settings.change({ serpentine: event.currentTarget.checked })}
        />
        Every second row from right to left, to walk less
      </label>
      <label class={look.check}>
        <input
          type="checkbox"
          checked={now.sound}
          onChange={(event) => settings.change({ sound: event.currentTarget.checked })}
        />
        Sound: one tone for taken, two for a question
      </label>
      {voice.isThere && (
        <label class={look.check}>
          <input
            type="checkbox"
            checked={now.voice}
            onChange={(event) => settings.change({ voice: event.currentTarget.checked })}
          />
          Voice: the next point is said aloud
        </label>
      )}
    </div>
  );
}

/** A window of the same browser can be spoken to; where only the system's browser can be opened, it cannot. */
function FieldsLink({ store }: { readonly store: CaptureStore }) {
  const { pair } = store.parts.screen;
  return (
    <a
      href={`./fields.html${formatHash({ pair })}`}
      target="_blank"
      rel="noopener"
      onClick={(event) => {
        if (openInBrowser(event.currentTarget.href)) event.preventDefault();
      }}
    >
      Open the fields window
    </a>
  );
}
