import { type Channel, type FromFields, readFromFields, type Shown, type ToFields } from './protocol';

type Answer = Extract<FromFields, { kind: 'shown' }>;

/** The guiding window's end of the channel. */
export interface Remote {
  /**
   * Shows a field. Resolves once it is on the screen, or with undefined if a later `show` or `stop` came first;
   * rejects if the window refused. A window that is hidden or not there never answers: the caller sets the limit.
   */
  show(shown: Shown): Promise<Answer | undefined>;
  /** Asks for a `state`. */
  ask(): void;
  /** Closes the fields window. */
  close(): void;
  /** Lets go of the channel; the fields window stays as it is. */
  stop(): void;
}

/** @param onMessage hears every answer, so also what a person does at the fields window */
export function createRemote(channel: Channel, onMessage: (message: FromFields) => void): Remote {
  let id = 0;
  let waiting: { resolve(answer?: Answer): void; reject(error: Error): void } | undefined;
  const give = (message: ToFields) => channel.postMessage(message);
  const listen = ({ data }: MessageEvent) => {
    const message = readFromFields(data);
    if (!message) return;
    if (message.kind === 'shown' && message.id === id) settle((pending) => pending.resolve(message));
    if (message.kind === 'refused' && message.id === id)
      settle((pending) => pending.reject(new Error(message.why)));
    onMessage(message);
  };
  const settle = (how: (pending: NonNullable<typeof waiting>) => void) => {
    const pending = waiting;
    waiting = undefined;
    if (pending) how(pending);
  };
  channel.addEventListener('message', listen);
  return {
    show: (shown) => {
      settle((pending) => pending.resolve());
      id++;
      const answer = new Promise<Answer | undefined>((resolve, reject) => {
        waiting = { resolve, reject };
      });
      give({ kind: 'show', id, field: shown.field, marker: shown.marker });
      return answer;
    },
    ask: () => give({ kind: 'ask' }),
    close: () => give({ kind: 'close' }),
    stop: () => {
      settle((pending) => pending.resolve());
      channel.removeEventListener('message', listen);
      channel.close();
    },
  };
}
