import type { Subscriptions } from '../api/object';
import type { Engine } from '../engine/engine';
import type { EngineEvent } from '../engine/events';
import { NOTICE } from './wire';

/** Numbers of the events in the client library (`eventType` beside each handler). */
export const EVENT = {
  changed: 10,
  activated: 11,
  deactivated: 12,
  added: 13,
  selected: 14,
  deleted: 15,
  calculated: 16,
  protection: 24,
  renamed: 25,
} as const;
/** Target of the handlers of the worksheet collection. */
export const WHOLE_WORKBOOK = 'Workbook';
/** `GenericEventRegistration.richApiMessageEventCategory`. */
const CATEGORY = 65_536;

/** Turns what happens in the engine into the client's event messages, as far as it asked for them. */
export class Notices implements Subscriptions {
  /** `context.runtime.enableEvents`. */
  enabled = true;
  readonly #wanted = new Map<string, number>();

  constructor(
    engine: Engine,
    readonly send: (text: string) => void,
  ) {
    engine.events.listen((event) => {
      if (!this.enabled) return;
      const targets = [WHOLE_WORKBOOK, event.sheet].filter((target) =>
        this.#wanted.has(key(EVENT[event.kind], target)),
      );
      const entries = targets.map((targetId) => ({
        messageCategory: CATEGORY,
        messageType: EVENT[event.kind],
        targetId,
        message: JSON.stringify(eventArguments(event)),
      }));
      // After the answer to the batch that caused it, as in Excel.
      if (entries.length > 0)
        setTimeout(() => this.send(JSON.stringify({ type: NOTICE, message: { entries } })));
    });
  }

  add(event: number, target: string): void {
    this.#wanted.set(key(event, target), (this.#wanted.get(key(event, target)) ?? 0) + 1);
  }
  remove(event: number, target: string): void {
    const left = (this.#wanted.get(key(event, target)) ?? 0) - 1;
    if (left > 0) this.#wanted.set(key(event, target), left);
    else this.#wanted.delete(key(event, target));
  }
}

function key(event: number, target: string): string {
  return `${event} ${target}`;
}

function eventArguments(event: EngineEvent): Record<string, unknown> {
  const base = { worksheetId: event.sheet };
  switch (event.kind) {
    case 'changed':
      return {
        ...base,
        address: event.address,
        changeType: event.changeType,
        source: 'Local',
        triggerSource: event.trigger,
        shiftDirection: 'None',
        // What `event.getRange(context)` comes back with.
        referenceId: `${event.sheet} ${event.address}`,
        ...(event.before === undefined && event.after === undefined
          ? {}
          : { valueBefore: event.before, valueAfter: event.after }),
      };
    case 'selected':
    case 'calculated':
      return { ...base, address: event.address };
    case 'renamed':
      return { ...base, source: 'Local', nameBefore: event.before, nameAfter: event.after };
    case 'protection':
      return { ...base, source: 'Local', isProtected: event.isProtected };
    default:
      return { ...base, source: 'Local' };
  }
}
