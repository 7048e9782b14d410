import type { ApiHost, Subscriptions } from '../api/object';
import { Range } from '../api/range';
import { Worksheet } from '../api/worksheet';
import type { Engine } from '../engine/engine';
import { ApiError, apiError } from '../errors';
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
    const host: ApiHost = {
      engine,
      subscriptions: notices as Subscriptions,
      added: new Set(),
      get eventsEnabled() {
        return notices.enabled;
      },
      set eventsEnabled(enabled: boolean) {
        notices.enabled = enabled;
      },
      worksheet: (sheet) => new Worksheet(host, sheet),
      range: (sheet, rect) => new Range(host, sheet, rect),
    };
    this.#host = host;
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
      // Those that wait for a cell stand beside the queue: a batch that may not wait is refused at once. With no cell
      // open there is nothing to wait for, not even a moment, or a batch that came later would go first.
      if (this.engine.isEditing && mayWait(message)) await this.engine.editingEnded();
      answer = await this.#inTurn(() => this.#answer(message));
    }
    return answer;
  }
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#queue.then(work);
    // The next one has its turn whatever came of this one, which its own asker hears.
    this.#queue = turn.catch(() => undefined);
    return turn;
  }
  /** Undefined for a batch that may wait when a person began to type before its turn came. */
  async #answer(message: BridgeMessage): Promise<string | undefined> {
    if (this.engine.isEditing && mayWait(message)) return undefined;
    const result = await this.#result(message).catch(refusal);
    return JSON.stringify({
      id: message.id,
      type: REQUEST,
      message: { statusCode: 200, headers: {}, body: JSON.stringify(result) },
    });
  }
  async #result({ message: { body } }: BridgeMessage): Promise<BatchResult> {
    if (this.engine.isEditing) throw new ApiError('InvalidOperationInCellEditMode');
    const batch = (typeof body === 'string' ? JSON.parse(body) : body) as Batch;
    return new BatchRun(this.#host, this.#references, batch).run();
  }
}

/** Reference of Excel.RunOptions.delayForCellEdit: with it a batch waits for the cell, without it it fails. */
const mayWait = ({ flags }: BridgeMessage) => ((flags ?? 0) & FLAG_DELAY_FOR_CELL_EDIT) !== 0;

/** The answer to a batch of which nothing was done, or that failed as a whole. */
function refusal(error: unknown): BatchResult {
  const { code, message, status } = apiError(error);
  return {
    Results: [],
    TraceIds: [],
    Error: { Code: code, Message: message, Location: '', ActionIndex: 0, HttpStatusCode: status },
  };
}
