import type { Channel } from '../../../taskpane/fields/protocol';

type Listener = (event: MessageEvent) => void;

/** A channel among ends in one page: what one end says all others hear at once, as a copy. Never its own words. */
export function channelEnds(count: number): Channel[] {
  const listeners = Array.from({ length: count }, () => new Set<Listener>());
  return listeners.map((own) => ({
    postMessage: (message) => {
      const data = structuredClone(message);
      for (const others of listeners)
        if (others !== own) for (const hear of [...others]) hear({ data } as MessageEvent);
    },
    addEventListener: (_type, listener) => own.add(listener),
    removeEventListener: (_type, listener) => own.delete(listener),
    close: () => own.clear(),
  }));
}
