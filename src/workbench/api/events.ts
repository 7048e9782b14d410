import { EVENT } from '../bridge/notices';
import type { ApiObject } from './object';

/** `_Register…Event` and `_Unregister…Event`, with which the client asks for notices. */
const REGISTRATIONS = {
  DataChanged: EVENT.changed,
  Activated: EVENT.activated,
  Deactivated: EVENT.deactivated,
  SelectionChanged: EVENT.selected,
  Calculated: EVENT.calculated,
  ProtectionChanged: EVENT.protection,
} as const;

function register(this: { host: ApiObject['host'] }, event: number, target: string, on: boolean): void {
  if (on) this.host.subscriptions.add(event, target);
  else this.host.subscriptions.remove(event, target);
}

/** Gives a class of API objects the registration methods of its events. */
export function withEvents(
  prototype: object,
  target: (object: never) => string,
  extra: Readonly<Record<string, number>> = {},
): void {
  const all: Readonly<Record<string, number>> = { ...REGISTRATIONS, ...extra };
  for (const [name, event] of Object.entries(all)) {
    for (const [prefix, on] of [
      ['_Register', true],
      ['_Unregister', false],
    ] as const) {
      const member = name.startsWith('Event') ? `${prefix}${name}` : `${prefix}${name}Event`;
      Object.defineProperty(prototype, member, {
        value(this: ApiObject) {
          register.call(this, event, target(this as never), on);
        },
      });
    }
  }
}
