import './page.css';
import './ui/capture.module.css';
import { render } from 'preact';
import { joinOpener } from '../../src/excel/childwindow';
import { createBrowserCapture } from './create';
import { type PaneLink, readToWindow, type ToWindow } from './messages';
import { capturePrefix } from './names';
import look from './ui/capture.module.css';
import { CaptureWindow } from './ui/Window';

const root = document.getElementById('capture')!;

/** The way to the pane that opened this window. */
async function joinPane(): Promise<PaneLink> {
  let hear: (message: ToWindow) => void = () => undefined;
  const opener = await joinOpener((text) => {
    const message = readToWindow(text);
    if (message) hear(message);
  });
  return {
    send: (message) => opener.say(JSON.stringify(message)),
    listen: (listener) => {
      hear = listener;
    },
    close: () => window.close(),
  };
}

async function main(): Promise<void> {
  try {
    const link = await joinPane();
    const store = createBrowserCapture(link, capturePrefix(Office.context.partitionKey));
    render(<CaptureWindow store={store} />, root);
    store.start();
    addEventListener('pagehide', () => store.stop());
  } catch (error) {
    render(<Stranded why={error instanceof Error ? error.message : String(error)} />, root);
  }
}

/** Opened by hand, or in a program that cannot join it to the pane. */
function Stranded({ why }: { readonly why: string }) {
  return (
    <div class={look.capture}>
      <main class={look.body}>
        <h1>Guided capture</h1>
        <p class={look.remark}>This window works only when it is opened from the pane in the workbook.</p>
        <details>
          <summary tabIndex={0}>Details for a report</summary>
          <pre>{why}</pre>
        </details>
      </main>
    </div>
  );
}

void main();
