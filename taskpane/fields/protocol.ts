import { type FieldId, isFieldId } from '../../src/fields/field';
import type { Size } from '../../src/fields/mark';
import type { Marker } from '../../src/fields/marker';
import type { SurfaceFinding } from '../../src/fields/surface';

/*
 * Between a window that guides readings and the window that shows the test fields: both of our origin, in one
 * browser, joined by a BroadcastChannel. Each pair has a channel name of its own, made by the guiding window and
 * handed over in the address, so that two runs measured side by side do not drive each other's projector. A
 * fields window that the host opened in another program (the system's browser) hears nothing: the guiding
 * window then never gets a `state` and must not claim to know what is on the screen.
 */

/** What is on the screen, as the fields window says. */
export interface Shown {
  readonly field: FieldId;
  /** Null: nothing but the field, neither mark nor hint nor pointer. */
  readonly marker: Marker | null;
}

/** How the window stands; what stands in the way of a measurement is in `findings`, as sentences for a person. */
export interface Facts {
  /** The field's size in device pixels. */
  readonly drawn: Size;
  readonly dpr: number;
  readonly isFullScreen: boolean;
  readonly isCovering: boolean;
  readonly isScaled: boolean;
  readonly isVisible: boolean;
  readonly findings: readonly SurfaceFinding[];
}

/** From the guiding window. */
export type ToFields =
  /** Show this. With a marker before a reading, with `marker: null` from then until the number is typed. */
  | ({ readonly kind: 'show'; readonly id: number } & Shown)
  /** Say how you are. */
  | { readonly kind: 'ask' }
  | { readonly kind: 'close' };

/** From the fields window. */
export type FromFields =
  /**
   * Said at the start, when asked, and whenever something changes: a person at the fields window steps with its
   * keys too. `shown` is null while its start page is up.
   */
  | { readonly kind: 'state'; readonly shown: Shown | null; readonly facts: Facts }
  /** The field of `show` with this id is on the screen; not said while the window is hidden, nor if a later `show` came first. */
  | { readonly kind: 'shown'; readonly id: number; readonly shown: Shown; readonly facts: Facts }
  /** `show` was not understood. */
  | { readonly kind: 'refused'; readonly id: number; readonly why: string }
  /** The window has been closed or has gone to another page. */
  | { readonly kind: 'closed' };

/** What is used of a BroadcastChannel. */
export interface Channel {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
  removeEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
  close(): void;
}

/** The channel of one pair of windows. */
export function openChannel(pair: string): Channel {
  return new BroadcastChannel(`light-fields ${pair}`);
}

/** What came over the channel, as a command; undefined if it is not for the fields window. */
export function readToFields(data: unknown): ToFields | Extract<FromFields, { kind: 'refused' }> | undefined {
  if (!isRecord(data)) return undefined;
  if (data.kind === 'ask' || data.kind === 'close') return { kind: data.kind };
  if (data.kind !== 'show' || typeof data.id !== 'number') return undefined;
  const { id, field, marker } = data;
  if (!isFieldId(field)) return { kind: 'refused', id, why: `There is no test field "${String(field)}".` };
  if (marker !== null && !isMarker(marker))
    return { kind: 'refused', id, why: 'The marker is a number with u and v from 0 to 1, or null.' };
  return { kind: 'show', id, field, marker };
}

const ANSWERS = ['state', 'shown', 'refused', 'closed'];

/** What came over the channel, as an answer; undefined if it is not for the guiding window. */
export function readFromFields(data: unknown): FromFields | undefined {
  // The page is ours and of the same build; only whose message it is has to be told.
  return isRecord(data) && ANSWERS.includes(String(data.kind)) ? (data as unknown as FromFields) : undefined;
}

function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === 'object' && data !== null;
}

function isMarker(data: unknown): data is Marker {
  if (!isRecord(data)) return false;
  const isFraction = (value: unknown) => typeof value === 'number' && value >= 0 && value <= 1;
  const { number } = data;
  return (
    Number.isInteger(number) &&
    Number(number) >= 0 &&
    Number(number) <= 99 &&
    isFraction(data.u) &&
    isFraction(data.v)
  );
}
