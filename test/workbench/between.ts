import type { Batch, BatchResult, BridgeMessage } from '../../src/workbench/bridge/wire';
import type { TestHost } from './client';

/** What somebody between client and host may do with the batch of a number, counted from 1. */
export interface Between {
  /** Before the host gets it; an answer stands for the host's own, which then never sees the batch. */
  before?(count: number, batch: Batch): Promise<BatchResult | undefined> | BatchResult | undefined;
  /** What is sent, as text; the host gets what is returned. */
  sent?(body: string): string;
  /** The host's notices, events among them, do not arrive. */
  readonly isDeaf?: true;
  /** What the host answered; the answer may be changed. */
  after?(count: number, result: BatchResult): Promise<BatchResult> | BatchResult;
}

/** A batch of which nothing was done, with one of the codes that Excel documents. */
export function refused(code: string): BatchResult {
  const error = { Code: code, Message: '', Location: '', ActionIndex: 0, HttpStatusCode: 400 };
  return { Results: [], TraceIds: [], Error: error };
}

/** Puts somebody between the client library and the workbench; the function returned takes them away. */
export function standBetween(test: TestHost, { before, after, sent, isDeaf }: Between): () => void {
  const bridge = test.workbench.bridge;
  const own = bridge.sendMessageToHost;
  let count = 0;
  const answers = new Map<number, number>();
  const reply = bridge.onMessageFromHost!;
  const tell = (id: number, result: BatchResult) =>
    reply.call(
      bridge,
      JSON.stringify({
        id,
        type: 1,
        message: { statusCode: 200, headers: {}, body: JSON.stringify(result) },
      }),
    );
  bridge.onMessageFromHost = (text) => {
    const { id, type, message } = JSON.parse(text) as BridgeMessage;
    if (isDeaf && type !== 1) return;
    const number = type === 1 ? answers.get(id) : undefined;
    if (number === undefined || !after) {
      reply.call(bridge, text);
      return;
    }
    const result = JSON.parse(message.body as string) as BatchResult;
    void Promise.resolve(after(number, result)).then((changed) => tell(id, changed));
  };
  bridge.sendMessageToHost = (original) => {
    const text = sent?.(original) ?? original;
    const { id, message } = JSON.parse(text) as BridgeMessage;
    const number = ++count;
    answers.set(id, number);
    const batch = (typeof message.body === 'string' ? JSON.parse(message.body) : message.body) as Batch;
    void Promise.resolve(before?.(number, batch)).then((answer) =>
      answer ? tell(id, answer) : own.call(bridge, text),
    );
  };
  return () => {
    bridge.sendMessageToHost = own;
    bridge.onMessageFromHost = reply;
  };
}
