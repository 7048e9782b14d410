import { type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import type { Shelf } from './shelf';

const VERSION = 1;

/** Whether the projector's screen shows the fields by itself, follows from this window, or shows this window too. */
const SCREENS = ['by hand', 'second screen', 'mirrored'] as const;
export type ScreenKind = (typeof SCREENS)[number];

/** How this person likes to work; nothing of it belongs to a measurement. */
const SettingsSchema = v.object({
  version: v.literal(VERSION),
  sound: v.boolean(),
  voice: v.boolean(),
  /** Every second row from right to left. */
  serpentine: v.boolean(),
  screen: v.picklist(SCREENS),
  /** How long the mark on the field, or this window's strip, stays before a reading. */
  markSeconds: v.pipe(v.number(), v.minValue(1), v.maxValue(60)),
});
export type SettingsValues = v.InferOutput<typeof SettingsSchema>;

export interface Settings {
  /** The kinds of screen that can be chosen here. */
  readonly screens: readonly ScreenKind[];
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

/**
 * Kept from one time to the next where the browser keeps anything.
 * @param screens what is possible here: a part of a pane cannot be the picture of a projector
 */
export function createSettings(
  shelf: Shelf | undefined,
  key: string,
  screens: readonly ScreenKind[] = SCREENS,
): Settings {
  const kept = read(shelf, key);
  const now = signal(screens.includes(kept.screen) ? kept : { ...kept, screen: START.screen });
  return {
    screens,
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
