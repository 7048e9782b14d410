import type { TestHost } from '../workbench/client';

/** What went over the bridge: round trips, actions asked for, bytes of requests and of answers. */
export interface Traffic {
  trips: number;
  actions: number;
  requests: number;
  answers: number;
  /** Longest message either way. */
  longest: number;
}

const none = (): Traffic => ({ trips: 0, actions: 0, requests: 0, answers: 0, longest: 0 });
const bytes = (text: string) => Buffer.byteLength(text, 'utf8');

/** Counts what the real client library and the host say to each other. Events that the host tells unasked count as answers. */
export function counting(test: TestHost): { during(work: () => Promise<unknown>): Promise<Traffic> } {
  const bridge = test.workbench.bridge as { sendMessageToHost(text: string): void } & {
    onMessageFromHost?: (text: string) => void;
  };
  let traffic = none();
  const send = bridge.sendMessageToHost.bind(bridge);
  bridge.sendMessageToHost = (text) => {
    const own = bytes(text);
    traffic.trips++;
    traffic.actions += actionsIn(text);
    traffic.requests += own;
    traffic.longest = Math.max(traffic.longest, own);
    send(text);
  };
  const receive = bridge.onMessageFromHost!;
  bridge.onMessageFromHost = (text) => {
    const own = bytes(text);
    traffic.answers += own;
    traffic.longest = Math.max(traffic.longest, own);
    receive(text);
  };
  return {
    during: async (work) => {
      traffic = none();
      await work();
      return traffic;
    },
  };
}

function actionsIn(text: string): number {
  const { body } = (JSON.parse(text) as { message: { body: unknown } }).message;
  const batch = (typeof body === 'string' ? JSON.parse(body) : body) as { Actions?: unknown[] };
  return batch.Actions?.length ?? 0;
}

const kB = (size: number) => `${(size / 1000).toFixed(1)} kB`;

/** "3 round trips, 1 500 actions, 250.0 kB of requests, 12.0 kB of answers". */
export function said({ trips, actions, requests, answers, longest }: Traffic): string {
  return `${trips} round trips, ${actions} actions, ${kB(requests)} of requests, ${kB(answers)} of answers, longest message ${kB(longest)}`;
}
