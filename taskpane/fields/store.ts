import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type FieldId, stepFrom } from '../../src/fields/field';
import type { Marker } from '../../src/fields/marker';
import type { Surface } from '../../src/fields/surface';
import type { Shown } from './protocol';

/** How long the pointer and the hint stay after the mouse was moved, in ms. */
const REST = 3_000;

/** What the fields window shows. */
export interface FieldsStore {
  /** Null while the start page is up. */
  readonly shown: ReadonlySignal<Shown | null>;
  readonly isHelp: ReadonlySignal<boolean>;
  /** Whether pointer and hint may be seen: soon after the mouse was moved, and never during a guided reading. */
  readonly isAwake: ReadonlySignal<boolean>;
  /** A guided reading is being taken: nothing but the field is shown. */
  readonly isBare: ReadonlySignal<boolean>;
  readonly surface: ReadonlySignal<Surface | undefined>;
  /** What the browser refused to do, in words. */
  readonly trouble: ReadonlySignal<string>;
  /** A person's choice. */
  show(field: FieldId, marker?: Marker | null): void;
  step(by: 1 | -1): void;
  toggleHelp(): void;
  /** Back: from the help to the field, from the field to the start page. */
  leave(): void;
  /** Straight to the start page. */
  quit(): void;
  fail(why: string): void;
  /** The guiding window's choice: without a marker a reading is being taken, and nothing but the field is shown. */
  obey(shown: Shown): void;
  /** The mouse was moved. */
  stir(): void;
  look(surface: Surface): void;
  stop(): void;
}

export function createFieldsStore(): FieldsStore {
  const shown = signal<Shown | null>(null);
  const isHelp = signal(false);
  const isBare = signal(false);
  const isStirred = signal(false);
  const surface = signal<Surface | undefined>(undefined);
  const trouble = signal('');
  let rest: ReturnType<typeof setTimeout> | undefined;
  const wake = () => {
    clearTimeout(rest);
    isStirred.value = true;
    rest = setTimeout(() => {
      isStirred.value = false;
    }, REST);
  };
  const show = (field: FieldId, marker: Marker | null = null) => {
    isBare.value = false;
    trouble.value = '';
    shown.value = { field, marker };
  };
  const quit = () => {
    isBare.value = false;
    isHelp.value = false;
    shown.value = null;
  };
  return {
    shown,
    isHelp,
    isAwake: computed(() => isStirred.value && !isBare.value),
    isBare,
    surface,
    trouble,
    show: (field, marker) => {
      // Coming from the start page the hint says what is wrong; stepping on, the field stays dark.
      if (!shown.value) wake();
      show(field, marker);
    },
    step: (by) => {
      if (shown.value) show(stepFrom(shown.value.field, by));
    },
    toggleHelp: () => {
      isBare.value = false;
      isHelp.value = !isHelp.value;
    },
    leave: () => {
      if (isHelp.value) isHelp.value = false;
      else quit();
    },
    quit,
    fail: (why) => {
      trouble.value = why;
    },
    obey: (next) => {
      isHelp.value = false;
      isStirred.value = false;
      isBare.value = next.marker === null;
      shown.value = next;
    },
    stir: wake,
    look: (seen) => {
      surface.value = seen;
    },
    stop: () => clearTimeout(rest),
  };
}
