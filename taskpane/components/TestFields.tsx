import { openInBrowser } from '../../src/excel/browserwindow';
import action from './Action.module.css';
import look from './look.module.css';

/** The way to the test fields, which have a window of their own. */
export function TestFields() {
  return (
    <section class={look.card} aria-labelledby="test-fields">
      <h2 id="test-fields">Test fields</h2>
      <p>
        White, red, green, blue, black, levels, tiled patterns, checkerboards and a focus grid, for the
        projector’s screen. They open in the browser, where they can go full screen on that screen, and where
        they can be saved as pictures for a USB stick; a pane can do neither.
      </p>
      <a
        class={action.action}
        href="./fields.html"
        target="_blank"
        rel="noopener"
        onClick={(event) => {
          if (openInBrowser(event.currentTarget.href)) event.preventDefault();
        }}
      >
        Open the test fields
      </a>
    </section>
  );
}
