import type { ApiHost, Subscriptions } from '../api/object';
import type { Engine } from '../engine/engine';
import { ApiError } from '../errors';
import { BatchRun } from './batch';
import { Notices } from './notices';
import { References } from './references';
import { type Batch, type BatchResult, type BridgeMessage, FLAG_DELAY_FOR_CELL_EDIT, REQUEST } from './wire';

/** What the client library's `OfficeExtension.HostBridge.init` takes. */
export interface NativeBridge {
  sendMessageToHost(text: string): void;
  onMessageFromHost?: (text: string) => void;
}

/** The host's side of the client library's bridge. */
export class Bridge {
  readonly #references = new References();
  readonly #host: ApiHost;
  /** Batches run one after another, as in Excel. */
  #queue: Promise<unknown> = Promise.resolve();

  constructor(readonly engine: Engine) {
    const notices = new Notices(engine, (text) => this.native.onMessageFromHost?.(text));
    this.#host = {
      engine,
      subscriptions: notices as Subscriptions,
      get eventsEnabled() {
        return notices.enabled;
      },
      set eventsEnabled(enabled: boolean) {
        notices.enabled = enabled;
      },
    };
  }

  /** Give this to `OfficeExtension.HostBridge.init`. */
  readonly native: NativeBridge = {
    sendMessageToHost: (text) => {
      void this.message(text).then((answer) => {
        if (answer !== undefined) this.native.onMessageFromHost?.(answer);
      });
    },
  };

  /** One message of the client → the answer to it; undefined for messages that want none. */
  async message(text: string): Promise<string | undefined> {
    const message = JSON.parse(text) as BridgeMessage;
    if (message.type !== REQUEST) return undefined;
    let answer: string | undefined;
    while (answer === undefined) {
      // Those that wait for a cell stand beside the queue: a batch that may not wait is refused at once.
      if (mayWait(message)) await this.engine.editingEnded();
      answer = await this.#inTurn(() => this.#answer(message));
    }
    return answer;
  }
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#queue.then(work);
    this.#queue = turn;
    return turn;
  }
  /** Undefined for a batch that may wait when a person began to type before its turn came. */
  async #answer(message: BridgeMessage): Promise<string | undefined> {
    if (this.engine.isEditing && mayWait(message)) return undefined;
    const { body } = message.message;
    const batch = (typeof body === 'string' ? JSON.parse(body) : body) as Batch;
    const result = this.engine.isEditing
      ? refusal()
      : await new BatchRun(this.#host, this.#references, batch).run();
    return JSON.stringify({
      id: message.id,
      type: REQUEST,
      message: { statusCode: 200, headers: {}, body: JSON.stringify(result) },
    });
  }
}

/** Reference of Excel.RunOptions.delayForCellEdit: with it a batch waits for the cell, without it it fails. */
const mayWait = ({ flags }: BridgeMessage) => ((flags ?? 0) & FLAG_DELAY_FOR_CELL_EDIT) !== 0;

function refusal(): BatchResult {
  const { code, message, status } = new ApiError('InvalidOperationInCellEditMode');
  return {
    Results: [],
    TraceIds: [],
    Error: { Code: code, Message: message, Location: '', ActionIndex: 0, HttpStatusCode: status },
  };
}
