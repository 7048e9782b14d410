/*
 * The protocol between Excel on the web and an add-in's frame, as far as the client library speaks it. Every message is
 * one JSON text through postMessage. Read in the library itself (`@microsoft/office-js`, dist/office.debug.js and
 * excel-web-16.00.debug.js: XdmCommunicationManager, InitializationHelper, OSF.DDA.WAC.Delegate).
 */
export interface Message {
  readonly _messageType: number;
  readonly _actionName: string;
  readonly _conversationId: string;
  readonly _correlationId: number;
  readonly _origin: string;
  readonly _data: unknown;
  readonly _serializerVersion: 1;
  /** Of a request. */
  readonly _actionType?: number;
  /** Of a response. */
  readonly _errorCode?: number;
  readonly _responseType?: number;
}

export const MESSAGE = { request: 0, response: 1 } as const;
export const ACTION = { invoke: 0, registerEvent: 1, unregisterEvent: 2 } as const;
export const RESPONSE = { answer: 0, event: 1 } as const;

/** What the add-in asks the host to do by its number (`OSF.DDA.MethodDispId`). */
export const METHOD = {
  loadSettings: 75,
  saveSettings: 76,
  openFile: 77,
  readSlice: 80,
  closeFile: 81,
  richApi: 93,
} as const;

/** What pane and host tell each other about the keyboard (`OSF.AgaveHostAction`). */
export const FOCUS = {
  tabIn: 11,
  tabInShift: 12,
  tabExit: 13,
  tabExitShift: 14,
  escExit: 15,
  f2Exit: 16,
  exitNoFocusable: 17,
  exitNoFocusableShift: 18,
} as const;

/** What the host answers to a method: fields beside `Version` and `Error`, or an error of Office's numbering. */
export type Answer = Readonly<Record<string, unknown>> & { readonly Error?: number };

/** "The operation is not supported." */
export const NOT_SUPPORTED = 5000;
/** "Internal error." */
export const INTERNAL = 5001;
