import { ACTION, type Answer, INTERNAL, MESSAGE, type Message, NOT_SUPPORTED, RESPONSE } from './messages';
import { secure } from './plainhttp';

/** What the add-in's frame may ask of the host. */
export interface AddinHost {
  context(id: string, addin: string): Readonly<Record<string, unknown>>;
  /** Methods by their numbers, see `METHOD`. */
  readonly methods: Readonly<Record<number, (data: never) => Promise<Answer> | Answer>>;
  /** The add-in tells of the keyboard, see `FOCUS`. */
  told(action: number): void;
}

/** One message of the host to the add-in in an event: a call of a function, a change of a sheet. */
export interface Entry {
  readonly category: number;
  readonly type: number;
  readonly target?: string;
  readonly message: string;
}

const CONTEXT = 'ContextActivationManager_getAppContextAsync';
const NOTIFY = 'ContextActivationManager_notifyHost';
const METHODS = 'executeMethod';
const RICH_API = 'richApiMessage';
/** Shared runtime, and custom functions. */
const FLAGS = 1 | 2;

let opened = 0;

/** The add-in in a frame, embedded and spoken to as Excel on the web does it. */
export class Addin {
  readonly #conversation = `workbench${++opened}`;
  readonly #id = crypto.randomUUID();
  readonly #origin: string;
  /** Names of the events that the add-in asked for. */
  readonly #events = new Set<string>();
  readonly #listen = (event: MessageEvent) => this.#hear(event);
  #asked = 0;

  /** Puts the add-in's page at `address` into a frame that is not in the document yet. */
  constructor(
    readonly frame: HTMLIFrameElement,
    address: string,
    readonly host: AddinHost,
  ) {
    const url = new URL(address, location.href);
    this.#origin = url.origin;
    const info = `Excel$Web$16.01$en-US$${crypto.randomUUID()}$$disableLogging$${FLAGS}`;
    url.searchParams.set('_host_Info', info);
    // Everything the library must know before it can ask; a name given later is not seen inside.
    frame.name = JSON.stringify({
      baseFrameName: `_xdm_0_${this.#conversation}`,
      hostInfo: info,
      xdmInfo: `${this.#conversation}|${this.#id}|${secure(location.origin + location.pathname)}`,
      serializerVersion: '1',
    });
    frame.src = url.href;
    window.addEventListener('message', this.#listen);
  }

  /** Hears nothing more; the frame is somebody else's business. */
  leave(): void {
    window.removeEventListener('message', this.#listen);
  }

  /** Raises what the add-in asked to be told. False if it did not ask, or not yet. */
  raise(entries: readonly Entry[]): boolean {
    if (!this.#events.has(RICH_API)) return false;
    const ArrayData = entries.map(({ category, type, target = '', message }) => [
      category,
      type,
      target,
      message,
    ]);
    const to = { _actionName: RICH_API, _conversationId: this.#conversation, _correlationId: 0 };
    this.#reply(to, { ArrayData }, RESPONSE.event);
    return true;
  }

  /** Tells the add-in of the keyboard, see `FOCUS`, by the one method that it serves, in a conversation of its own. */
  tell(action: number): void {
    this.#post({
      _messageType: MESSAGE.request,
      _actionName: 'Office_notifyAgave',
      _conversationId: `${this.#conversation}_ntf`,
      _correlationId: ++this.#asked,
      _origin: secure(location.origin),
      _data: [action],
      _actionType: ACTION.invoke,
      _serializerVersion: 1,
    });
  }

  #hear({ data, origin }: MessageEvent): void {
    if (origin !== this.#origin && origin !== location.origin) return;
    if (typeof data !== 'string' || !data.includes(this.#conversation)) return;
    const message = JSON.parse(data) as Message;
    if (message._conversationId === this.#conversation && message._messageType === MESSAGE.request)
      void this.#request(message);
  }

  async #request(message: Message): Promise<void> {
    const { _actionName: name, _actionType: action } = message;
    if (action === ACTION.registerEvent) {
      this.#events.add(name);
      this.#reply(message, { Error: 0 });
    } else if (action === ACTION.unregisterEvent) {
      this.#events.delete(name);
      this.#reply(message, { Error: 0 });
    } else if (name === CONTEXT) {
      // The page was loaded, perhaps anew.
      this.#events.clear();
      this.#reply(message, this.host.context(this.#id, this.#origin));
    } else if (name === NOTIFY) this.host.told((message._data as readonly [string, number])[1]);
    else if (name === METHODS)
      this.#reply(message, { Version: 1, Error: 0, ...(await this.#method(message)) });
  }

  async #method({ _data }: Message): Promise<Answer> {
    const { DdaMethod } = _data as { readonly DdaMethod: { readonly DispatchId: number } };
    const method = this.host.methods[DdaMethod.DispatchId];
    if (!method) return { Error: NOT_SUPPORTED };
    try {
      return await method(_data as never);
    } catch (error) {
      console.error(error);
      return { Error: INTERNAL };
    }
  }

  #reply(
    to: Pick<Message, '_actionName' | '_conversationId' | '_correlationId'>,
    data: unknown,
    type: number = RESPONSE.answer,
  ): void {
    this.#post({
      _messageType: MESSAGE.response,
      _actionName: to._actionName,
      _conversationId: to._conversationId,
      _correlationId: to._correlationId,
      _origin: secure(location.origin),
      _data: data,
      _errorCode: 0,
      _responseType: type,
      _serializerVersion: 1,
    });
  }
  #post(message: Message): void {
    this.frame.contentWindow?.postMessage(JSON.stringify(message), this.#origin);
  }
}
