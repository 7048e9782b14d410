/** A window of ours beside the spreadsheet, as its opener sees it. */
interface ChildWindow {
  say(text: string): void;
  close(): void;
}

export interface ChildEvents {
  /** The window said something. */
  heard(text: string): void;
  /** The window is gone: the person closed it, or its page could not be shown. */
  closed(how: Closing): void;
}

/** `lost`: the window's page could not be found or loaded, or went to where it may not. */
type Closing = { readonly why: 'person' | 'lost'; readonly code: number };

/** Why there is no window. `blocked`: the person or the browser refused it; `untrusted`: the address of its page is. */
export type Opening =
  | { readonly ok: true; readonly window: ChildWindow }
  | {
      readonly ok: false;
      readonly why: 'blocked' | 'open' | 'unavailable' | 'untrusted' | 'failed';
      readonly code: number;
    };

export interface WindowSize {
  /** Per cent of the screen; Office allows up to 99.5. */
  readonly width: number;
  readonly height: number;
}

/*
 * Office Add-ins documentation, "Handle errors and events in the dialog box". Of displayDialogAsync: 12004 the domain
 * of the address is not trusted, 12005 it is not https, 12007 a dialog is open already, 12009 the person chose not to
 * allow it, 12011 the browser's pop-up blocker. Of an open dialog: 12002 no page at the address, or it cannot be
 * loaded, 12003 it went to an address without https, 12006 it was closed.
 */
const ALREADY_OPEN = 12007;
const BLOCKED: readonly number[] = [12009, 12011];
const UNTRUSTED: readonly number[] = [12004, 12005];
const LOST: readonly number[] = [12002, 12003];

/** Closing a dialog takes a moment, and until then another one is refused: so often it is tried again, after so long. */
const TRIES = 5;
const PAUSE_MS = 200;

/**
 * Opens a page of ours in an Office dialog. The window must say something first: what is said to it before it
 * listens is lost (office-js issues 2372 and 3463).
 * @param page beside the pane, e.g. `capture.html`
 */
export async function openWindow(page: string, size: WindowSize, events: ChildEvents): Promise<Opening> {
  // Without 1.2 nothing can be said to a dialog; 1.2 cannot stand in a manifest.
  if (!Office.context.requirements.isSetSupported('DialogApi', '1.2')) {
    return { ok: false, why: 'unavailable', code: 0 };
  }
  const address = new URL(page, location.href).href;
  for (let tried = 1; ; tried++) {
    const { error, value } = await display(address, size);
    if (value) return { ok: true, window: follow(value, events) };
    if (error !== ALREADY_OPEN || tried === TRIES) return { ok: false, why: whyOf(error), code: error };
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}

function whyOf(code: number): 'blocked' | 'open' | 'untrusted' | 'failed' {
  if (code === ALREADY_OPEN) return 'open';
  if (UNTRUSTED.includes(code)) return 'untrusted';
  return BLOCKED.includes(code) ? 'blocked' : 'failed';
}

function display(address: string, size: WindowSize): Promise<{ error: number; value?: Office.Dialog }> {
  return new Promise((resolve) => {
    Office.context.ui.displayDialogAsync(address, { ...size }, (result) => {
      // The enum's own words; `Office.AsyncResultStatus` itself need not be there yet.
      if (String(result.status) === 'succeeded') resolve({ error: 0, value: result.value });
      else resolve({ error: result.error.code });
    });
  });
}

function follow(dialog: Office.Dialog, { heard, closed }: ChildEvents): ChildWindow {
  dialog.addEventHandler(Office.EventType.DialogMessageReceived, (event) => {
    if ('message' in event) heard(event.message);
  });
  dialog.addEventHandler(Office.EventType.DialogEventReceived, (event) => {
    const code = 'error' in event ? event.error : 0;
    closed({ why: LOST.includes(code) ? 'lost' : 'person', code });
  });
  return {
    say: (text) => dialog.messageChild(text),
    close: () => dialog.close(),
  };
}
