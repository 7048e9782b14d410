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
  message(text: string): Promise<string | undefined> {
    const message = JSON.parse(text) as BridgeMessage;
    if (message.type !== REQUEST) return Promise.resolve(undefined);
    const turn = this.#queue.then(() => this.#answer(message));
    this.#queue = turn;
    return turn;
  }
  async #answer(message: BridgeMessage): Promise<string> {
    const { body } = message.message;
    const batch = (typeof body === 'string' ? JSON.parse(body) : body) as Batch;
    const result = await this.#run(batch, message.flags ?? 0);
    return JSON.stringify({
      id: message.id,
      type: REQUEST,
      message: { statusCode: 200, headers: {}, body: JSON.stringify(result) },
    });
  }
  async #run(batch: Batch, flags: number): Promise<BatchResult> {
    if (this.engine.isEditing) {
      // Reference of Excel.RunOptions.delayForCellEdit: with it the batch waits, without it it fails.
      if ((flags & FLAG_DELAY_FOR_CELL_EDIT) === 0) {
        const { code, message, status } = new ApiError('InvalidOperationInCellEditMode');
        const refusal = {
          Code: code,
          Message: message,
          Location: '',
          ActionIndex: 0,
          HttpStatusCode: status,
        };
        return { Results: [], TraceIds: [], Error: refusal };
      }
      await this.engine.editingEnded();
    }
    return new BatchRun(this.#host, this.#references, batch).run();
  }
}
