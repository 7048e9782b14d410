import { computed, type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import type { Shelf } from './shelf';

const VERSION = 1;

/** What is done before the first reading, each with the word that its absence gets in the notes. */
export const CHECKS = [
  {
    id: 'mode',
    label: 'Picture mode and light setting as noted, every automatic dimming off',
    short: 'mode',
  },
  {
    id: 'zoom',
    label: 'Zoom as it will be used, or as noted above; image fills the screen and is in focus',
    short: 'zoom',
  },
  {
    id: 'keystone',
    label: 'Keystone and other digital corrections off: they throw light away',
    short: 'keystone off',
  },
  { id: 'lights', label: 'Room lights out, curtains closed, no other screen on', short: 'lights out' },
] as const;
type CheckId = (typeof CHECKS)[number]['id'];

const BeforeSchema = v.object({
  version: v.literal(VERSION),
  /** When the light source was switched on, milliseconds since 1970. */
  since: v.nullable(v.pipe(v.number(), v.integer())),
  minutes: v.pipe(v.number(), v.minValue(0), v.maxValue(240)),
  done: v.array(v.picklist(CHECKS.map(({ id }) => id))),
  zoom: v.pipe(v.string(), v.maxLength(60)),
  isBegun: v.boolean(),
});
type BeforeValues = v.InferOutput<typeof BeforeSchema>;

/** Warm-up usually asked for; manufacturers and standards name 15 to 30 minutes (from memory). */
export const WARM_UP_MINUTES = 15;

const START: BeforeValues = {
  version: VERSION,
  since: null,
  minutes: WARM_UP_MINUTES,
  done: [],
  zoom: '',
  isBegun: false,
};

/** The preparation of one run. It survives the closing of the window, warm-up clock included. */
export interface Before {
  readonly values: ReadonlySignal<BeforeValues>;
  /** Seconds of warm-up left; 0 when it is over, the whole time when it has not begun. */
  left(now: number): number;
  readonly isWarming: ReadonlySignal<boolean>;
  change(part: Partial<Omit<BeforeValues, 'version'>>): void;
  tick(id: CheckId, isDone: boolean): void;
  /** One line for the notes: what was confirmed, and what was not. */
  summary(now: number): string;
}

export function createBefore(shelf: Shelf | undefined, key: string): Before {
  const values = signal(read(shelf, key));
  const change = (part: Partial<BeforeValues>) => {
    values.value = { ...values.peek(), ...part };
    try {
      shelf?.setItem(key, JSON.stringify(values.peek()));
    } catch {
      // A full or closed storage: the preparation then lasts as long as the window.
    }
  };
  const left = (now: number) => {
    const { since, minutes } = values.value;
    return Math.max(
      0,
      Math.ceil((since === null ? minutes * 60_000 : since + minutes * 60_000 - now) / 1000),
    );
  };
  return {
    values,
    left,
    isWarming: computed(() => values.value.since !== null),
    change,
    tick: (id, isDone) => {
      const others = values.peek().done.filter((one) => one !== id);
      change({ done: isDone ? [...others, id] : others });
    },
    summary: (now) => {
      const { since, done, zoom } = values.peek();
      const warm =
        since === null ? 'warm-up not timed' : `warmed up ${Math.floor((now - since) / 60_000)} min`;
      const named = (isDone: boolean) =>
        CHECKS.filter(({ id }) => done.includes(id) === isDone)
          .map(({ short }) => short)
          .join(', ');
      const parts = [
        warm,
        named(true) && `confirmed: ${named(true)}`,
        named(false) && `not confirmed: ${named(false)}`,
        zoom && `zoom ${zoom}`,
      ];
      return `Before the readings: ${parts.filter(Boolean).join('; ')}`;
    },
  };
}

function read(shelf: Shelf | undefined, key: string): BeforeValues {
  try {
    const kept = v.safeParse(BeforeSchema, JSON.parse(shelf?.getItem(key) ?? 'null'));
    return kept.success ? kept.output : START;
  } catch {
    // Not readable, or not ours: begin afresh.
    return START;
  }
}

/** `754` → "12:34". */
export function clock(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
