/*
 * Stands where Microsoft's loader office.js stands in Excel: after the real client library for Excel
 * (excel-web-16.00.js) it adds the few members that the loader would add, and joins the library to the
 * spreadsheet of the page around the pane.
 */
import { findLink } from '../link';
import { contextOf } from './context';

/** The parts of the client library that are not in its published types. */
interface Bridge {
  sendMessageToHost(text: string): void;
  onMessageFromHost?: (text: string) => void;
}
declare const OSF: Record<string, unknown>;
interface Library {
  readonly HostBridge: { init(bridge: Bridge): void };
}

const isDialog = window.opener !== null && window.parent === window;
const link = findLink(window);
const context = contextOf(link, isDialog);

// How the pane knows where it is; Excel has no such thing.
Object.assign(window, { lightWorkbench: true });
// The library's own `Office.context` asks this object.
OSF._OfficeAppFactory = { getContext: () => context };

if (!isDialog) {
  const bridge: Bridge = { sendMessageToHost: (text) => send(text) };
  const send = link.connect((text) => bridge.onMessageFromHost?.(text));
  (OfficeExtension as unknown as Library).HostBridge.init(bridge);
}

const info = { host: 'Excel', platform: 'OfficeOnline' } as unknown as {
  host: Office.HostType;
  platform: Office.PlatformType;
};
Object.assign(Office, {
  HostType: { Excel: 'Excel' },
  PlatformType: { PC: 'PC', OfficeOnline: 'OfficeOnline', Mac: 'Mac', iOS: 'iOS', Universal: 'Universal' },
  /** As Office does it: a promise and a callback, and `Office.initialize` for old code. */
  onReady: async (callback?: (said: typeof info) => unknown) => {
    await callback?.(info);
    return info;
  },
});
// When every script of the page has run, as Office does; typed as always there, but it is the page that sets it.
document.addEventListener('DOMContentLoaded', () => {
  const initialize = Office.initialize as typeof Office.initialize | undefined;
  initialize?.(Office.InitializationReason.DocumentOpened);
});

Object.assign(CustomFunctions, {
  /** One function, or many as an object. */
  associate: (
    first: string | Record<string, (...args: unknown[]) => unknown>,
    run?: (...args: unknown[]) => unknown,
  ) => {
    const all = typeof first === 'string' ? { [first]: run } : first;
    for (const [id, one] of Object.entries(all)) {
      if (typeof one !== 'function') throw new Error(`CustomFunctions.associate("${id}") needs a function`);
      if (!isDialog) link.associate(id, one);
    }
  },
});
