import { type Callback, fail, succeed } from './result';

/** What a dialog and its opener say to each other; both are pages of ours at one address. */
interface Message {
  readonly lightDialog: 'to-parent' | 'to-dialog';
  readonly text: string;
}
function isMessage(data: unknown, kind: Message['lightDialog']): data is Message {
  return typeof data === 'object' && data !== null && (data as Partial<Message>).lightDialog === kind;
}

type Handler = (event: { message: string; origin: string } | { error: number; type: string }) => void;

/** Milliseconds between looks at whether the person has closed the window; browsers send no event for it. */
const LOOK = 250;

let current: Window | undefined;

/** `Office.context.ui.displayDialogAsync` as a real window, one at a time, with Office's error numbers. */
export function displayDialogAsync(
  address: string,
  options: Office.DialogOptions | Callback<Office.Dialog>,
  then?: Callback<Office.Dialog>,
): void {
  const callback = typeof options === 'function' ? options : then;
  const opened = open(new URL(address, location.href), typeof options === 'object' ? options : {});
  if (typeof opened === 'number') fail(callback, opened, 'Dialog', REFUSALS[opened]);
  else {
    current = opened;
    succeed(callback, dialogOf(opened));
  }
}

/** Office's numbers for a dialog that did not open (Office Add-ins documentation, "Handle errors and events in the dialog box"). */
const REFUSALS = {
  12004: 'The dialog page is not on the host of the add-in.',
  12007: 'A dialog is already open.',
  12011: 'The browser blocked the dialog window.',
} as const;

function open(url: URL, { width = 60, height = 60 }: Office.DialogOptions): Window | keyof typeof REFUSALS {
  if (url.origin !== location.origin) return 12004;
  if (current && !current.closed) return 12007;
  const pixels = (percent: number, of: number): number => Math.round((of * percent) / 100);
  const size = `width=${pixels(width, screen.availWidth)},height=${pixels(height, screen.availHeight)}`;
  return window.open(url, '_blank', `popup,${size}`) ?? 12011;
}

function dialogOf(opened: Window): Office.Dialog {
  const handlers = new Map<string, Handler>();
  const listen = (event: MessageEvent): void => {
    if (event.source !== opened || event.origin !== location.origin) return;
    if (!isMessage(event.data, 'to-parent')) return;
    handlers.get('dialogMessageReceived')?.({ message: event.data.text, origin: event.origin });
  };
  window.addEventListener('message', listen);
  const watch = setInterval(() => {
    if (!opened.closed) return;
    end();
    handlers.get('dialogEventReceived')?.({ error: 12006, type: 'dialogEventReceived' });
  }, LOOK);
  const end = (): void => {
    clearInterval(watch);
    window.removeEventListener('message', listen);
    if (current === opened) current = undefined;
  };
  return {
    close: () => {
      end();
      opened.close();
    },
    messageChild: (text: string) => {
      opened.postMessage({ lightDialog: 'to-dialog', text } satisfies Message, location.origin);
    },
    addEventHandler: (type: Office.EventType, handler: Handler) => {
      handlers.set(String(type), handler);
    },
  } as Office.Dialog;
}

/** Inside a dialog: `Office.context.ui.messageParent`. */
export function messageParent(text: string | boolean): void {
  if (!window.opener) throw new Error('messageParent works inside a dialog window only');
  (window.opener as Window).postMessage(
    { lightDialog: 'to-parent', text: String(text) } satisfies Message,
    location.origin,
  );
}

/** Inside a dialog: `Office.context.ui.addHandlerAsync(DialogParentMessageReceived, …)`. */
export function addHandlerAsync(
  type: Office.EventType,
  handler: (event: { message: string; origin: string }) => void,
  callback?: Callback<void>,
): void {
  if (String(type) !== 'dialogParentMessageReceived') {
    throw new Error(`The workbench has no event "${type}" for Office.context.ui`);
  }
  window.addEventListener('message', (event) => {
    if (event.source !== window.opener || event.origin !== location.origin) return;
    if (isMessage(event.data, 'to-dialog')) handler({ message: event.data.text, origin: event.origin });
  });
  succeed(callback, undefined);
}
