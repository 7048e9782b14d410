import type { CaptureStore, Panel } from '../store';
import { Press } from './Entry';
import { foldOnEscape } from './fold';
import own from './Tools.module.css';

export interface ToolsProps {
  readonly store: CaptureStore;
  readonly onDone: () => void;
}

const PANELS: readonly (readonly [Exclude<Panel, ''>, string])[] = [
  ['jump', 'Jump'],
  ['note', 'Note'],
  ['options', 'Options'],
  ['keys', 'Keys'],
  ['cautions', 'Cautions'],
];

/** Going about, and what unfolds below. */
export function Tools({ store, onDone }: ToolsProps) {
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it hears keys of the buttons inside, and is none itself.
    <div class={own.tools} onKeyDown={foldOnEscape(store, onDone)}>
      <Press store={store} command="back" name="Back, read the point before again">
        Back
      </Press>
      <Press store={store} command="on" name="Skip, leave this point open">
        Skip
      </Press>
      <Press store={store} command="pause">
        Pause
      </Press>
      {PANELS.map(([panel, words]) => (
        <button
          key={panel}
          type="button"
          aria-expanded={store.panel.value === panel}
          onClick={() => {
            const isShown = store.panel.peek() === panel;
            store.show(panel);
            if (isShown) onDone();
          }}
        >
          {words}
        </button>
      ))}
    </div>
  );
}
