import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Asking } from '../asking';
import type { Before } from '../before';
import { ENTRY_VERSION, type Entry } from '../entry';
import { undoable } from '../history';
import { arrange, isOpen } from '../order';
import type { Outbox } from '../outbox';
import { createOverlay, type Overlay } from '../overlay';
import { prompt } from '../prompt';
import { rangeLock } from '../range';
import type { Screen } from '../screen';
import type { Settings } from '../settings';
import type { Shelf } from '../shelf';
import type { Sound } from '../sound';
import type { Group, Step, Task } from '../task';
import type { Voice } from '../voice';

/** What the capture window is made of. */
export interface CaptureParts {
  readonly outbox: Outbox;
  readonly settings: Settings;
  readonly screen: Screen;
  readonly sound: Sound;
  readonly voice: Voice;
  readonly shelf: Shelf | undefined;
  /** Begins the keys of what this window keeps. */
  readonly prefix: string;
  /** Unique lower-case letters and digits; begins the ids of this window's entries. */
  readonly session: string;
  readonly now: () => number;
}

type Stage = 'connecting' | 'no-task' | 'before' | 'reading' | 'paused' | 'done';
export type Panel = '' | 'jump' | 'keys' | 'options' | 'note' | 'cautions';

/** What the window knows, and the few things every action does. */
export interface State {
  readonly parts: CaptureParts;
  readonly overlay: Overlay;
  readonly task: ReadonlySignal<Task | undefined>;
  readonly steps: ReadonlySignal<readonly Step[]>;
  readonly current: ReadonlySignal<Step | undefined>;
  readonly left: ReadonlySignal<number>;
  readonly stage: ReadonlySignal<Stage>;
  readonly lock: ReadonlySignal<string | undefined>;
  readonly range: ReadonlySignal<number>;
  /** Entries that can be taken back, the latest first. */
  readonly stack: ReadonlySignal<ReturnType<typeof undoable>>;
  readonly text: Signal<string>;
  readonly meterRange: Signal<number | undefined>;
  readonly asking: Signal<Asking | undefined>;
  readonly remark: Signal<string>;
  readonly said: Signal<string>;
  /** What stands in the way of writing, and why there is no task. */
  readonly fault: Signal<string>;
  readonly why: Signal<string>;
  readonly isPaused: Signal<boolean>;
  readonly panel: Signal<Panel>;
  readonly before: Signal<Before | undefined>;
  /** The number was begun while the mark was on the screen. */
  readonly isTypedMarked: Signal<boolean>;
  groupOf(step: Step): Group;
  isClosing(step: Step): boolean;
  /** Puts something into the journal and on its way. */
  enter(entry: Omit<Entry, 'version' | 'id' | 'run' | 'sheet' | 'at' | 'n'>): void;
  /** Says something to a screen reader, and shows it as a remark. */
  note(words: string): void;
  /** Goes to a step, and says what was done and what comes. */
  go(step: Step | undefined, words?: string): void;
  /** Empties the entry and drops the question about it. */
  clear(): void;
  ask(question: Asking): void;
}

export function createState(parts: CaptureParts): State {
  const { outbox, settings, sound, voice, session, now } = parts;
  const overlay = createOverlay();
  const { task } = overlay;
  const text = signal('');
  const meterRange = signal<number | undefined>(undefined);
  const cursor = signal<string | undefined>(undefined);
  const asking = signal<Asking | undefined>(undefined);
  const remark = signal('');
  const said = signal('');
  const why = signal('');
  const isPaused = signal(false);
  const before = signal<Before | undefined>(undefined);
  const isTypedMarked = signal(false);
  const panel = signal<Panel>('');
  let count = 0;

  const steps = computed(() => (task.value ? arrange(task.value.groups, settings.now.value.serpentine) : []));
  const groupOf = (step: Step) => task.value!.groups.find(({ id }) => id === step.group)!;
  const current = computed(() => steps.value.find(({ key }) => key === cursor.value));
  const left = computed(() => steps.value.filter(isOpen).length);
  const stage = computed((): Stage => {
    if (!task.value) return why.value ? 'no-task' : 'connecting';
    if (isPaused.value) return 'paused';
    const isUntouched = left.value === steps.value.length;
    if (isUntouched && before.value && !before.value.values.value.isBegun) return 'before';
    return current.value ? 'reading' : 'done';
  });
  const lock = computed(() => {
    const step = current.value;
    if (!step) return undefined;
    const group = groupOf(step);
    const isBegun = group.steps.some((other) => other.key !== step.key && !isOpen(other));
    return rangeLock(step, group, isBegun);
  });
  const range = computed(() => {
    const step = current.value;
    if (!step) return 1;
    return lock.value === undefined ? (meterRange.value ?? step.factor) : step.factor;
  });
  const clear = () => {
    text.value = '';
    asking.value = undefined;
    isTypedMarked.value = false;
  };
  return {
    parts,
    overlay,
    task,
    steps,
    current,
    left,
    stage,
    lock,
    range,
    stack: computed(() => undoable(outbox.records.value, task.value?.id ?? '')),
    text,
    meterRange,
    asking,
    remark,
    said,
    fault: signal(''),
    why,
    isPaused,
    panel,
    before,
    isTypedMarked,
    groupOf,
    isClosing: (step) => groupOf(step).isLast,
    enter: (entry) => {
      const { id: run, sheet, workbook } = task.peek()!;
      count++;
      const full: Entry = {
        version: ENTRY_VERSION,
        id: `${session}-${count}`,
        run,
        sheet,
        ...(workbook === undefined ? {} : { workbook }),
        at: now(),
        n: count,
        ...entry,
        words: entry.words.slice(0, 500),
      };
      overlay.lay({ entry: full, state: 'waiting', isAttempted: false });
      outbox.accept(full);
    },
    note: (words) => {
      remark.value = words;
      said.value = words;
    },
    go: (step, words = '') => {
      cursor.value = step?.key;
      clear();
      // What was unfolded belonged to the reading; the last page begins folded.
      if (!step) panel.value = '';
      if (stage.peek() !== 'reading') {
        said.value = words;
        return;
      }
      const next = step ? prompt(step, task.peek()!, left.peek()) : '';
      said.value = `${words} ${next}`.trim();
      if (settings.now.peek().voice) voice.say(`${remark.peek()} ${next}`);
    },
    clear,
    ask: (question) => {
      asking.value = question;
      if (settings.now.peek().sound) sound.doubtful();
      if (settings.now.peek().voice) voice.say(question.message);
    },
  };
}
