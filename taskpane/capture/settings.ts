import { type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import type { Shelf } from './shelf';

const VERSION = 1;

/** How this person likes to work; nothing of it belongs to a measurement. */
const SettingsSchema = v.object({
  version: v.literal(VERSION),
  sound: v.boolean(),
  voice: v.boolean(),
  /** Every second row from right to left. */
  serpentine: v.boolean(),
  /** Whether a screen shows the fields by itself, follows from this window, or shows this window too. */
  screen: v.picklist(['by hand', 'second screen', 'mirrored']),
  /** How long the mark on the field, or this window's strip, stays before a reading. */
  markSeconds: v.pipe(v.number(), v.minValue(1), v.maxValue(60)),
});
export type SettingsValues = v.InferOutput<typeof SettingsSchema>;

export interface Settings {
  readonly now: ReadonlySignal<SettingsValues>;
  change(part: Partial<SettingsValues>): void;
}

export const START: SettingsValues = {
  version: VERSION,
  sound: false,
  voice: false,
  serpentine: false,
  screen: 'by hand',
  markSeconds: 4,
};

/** Kept from one time to the next where the browser keeps anything. */
export function createSettings(shelf: Shelf | undefined, key: string): Settings {
  const now = signal(read(shelf, key));
  return {
    now,
    change: (part) => {
      now.value = { ...now.peek(), ...part };
      try {
        shelf?.setItem(key, JSON.stringify(now.peek()));
      } catch {
        // A full or closed storage: the choice then lasts as long as the window.
      }
    },
  };
}

function read(shelf: Shelf | undefined, key: string): SettingsValues {
  try {
    const kept = v.safeParse(SettingsSchema, JSON.parse(shelf?.getItem(key) ?? 'null'));
    return kept.success ? kept.output : START;
  } catch {
    // Not readable, or not ours: begin with the usual ones.
    return START;
  }
}
