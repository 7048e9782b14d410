import { computed, effect, type ReadonlySignal } from '@preact/signals';
import type { Choice } from './asking';
import type { Command } from './keys';
import { createAccepting } from './store/accept';
import { createAside } from './store/aside';
import { createHearing } from './store/hear';
import { type CaptureParts, createState, type Panel, type State } from './store/state';
import { createSteering } from './store/steer';

/** Everything the capture window knows and can do. Components read signals and call these. */
export interface CaptureStore
  extends Pick<State, 'task' | 'steps' | 'current' | 'left' | 'stage' | 'lock' | 'range' | 'groupOf'> {
  readonly parts: CaptureParts;
  readonly text: ReadonlySignal<string>;
  readonly asking: State['asking'];
  readonly remark: ReadonlySignal<string>;
  readonly said: ReadonlySignal<string>;
  readonly why: ReadonlySignal<string>;
  readonly panel: ReadonlySignal<Panel>;
  readonly before: State['before'];
  /** What stands in the way of the workbook, in words; empty when nothing does. */
  readonly trouble: ReadonlySignal<string>;
  /** Entries for this sheet that do not stand in the workbook yet. */
  readonly waiting: ReadonlySignal<number>;
  /** What undo would take back; empty when there is nothing. */
  readonly undoes: ReadonlySignal<string>;
  type(text: string): void;
  command(command: Command): void;
  answer(choice: Choice, words?: string): void;
  jump(key: string): void;
  note(words: string): void;
  show(panel: Panel): void;
  begin(mode: string): void;
  resume(): void;
  start(): void;
  stop(): void;
}

const SILENT =
  'The pane does not answer. Readings are kept here; open the pane in the workbook again, then this window from it.';

export function createCapture(parts: CaptureParts): CaptureStore {
  const state = createState(parts);
  const { asking, panel, text, remark, stage, current } = state;
  const { outbox, settings, screen, voice } = parts;
  const accepting = createAccepting(state);
  const steering = createSteering(state);
  const aside = createAside(state);
  let stopFollowing: () => void = () => undefined;

  const toggle = (key: 'sound' | 'voice') => {
    settings.change({ [key]: !settings.now.peek()[key] });
    if (!settings.now.peek().voice) voice.hush();
    state.note(`${key === 'sound' ? 'Sound' : 'Voice'} ${settings.now.peek()[key] ? 'on' : 'off'}.`);
  };
  const show = (wanted: Panel) => {
    panel.value = panel.peek() === wanted ? '' : wanted;
  };
  const clear = () => {
    state.clear();
    panel.value = '';
  };

  const commands: Readonly<Record<Command, () => void>> = {
    accept: accepting.accept,
    'over range': accepting.over,
    undo: steering.undo,
    'higher range': () => steering.shiftRange(1),
    'lower range': () => steering.shiftRange(-1),
    back: () => steering.move(-1),
    on: () => steering.move(1),
    clear,
    unit: aside.switchUnit,
    pause: () => {
      state.isPaused.value = true;
      state.said.value = 'Paused.';
    },
    jump: () => show('jump'),
    keys: () => show('keys'),
    note: () => show('note'),
    sound: () => toggle('sound'),
    voice: () => toggle('voice'),
  };

  return {
    ...state,
    trouble: computed(() => {
      if (outbox.isSilent.value) return SILENT;
      // Without a task `why` has a page of its own.
      return (state.task.value && state.why.value) || state.fault.value;
    }),
    waiting: computed(() => {
      const run = state.task.value?.id;
      return outbox.unconfirmed.value.filter(({ entry }) => run === undefined || entry.run === run).length;
    }),
    undoes: computed(() => state.stack.value[0]?.entry.words ?? ''),
    type: (typed) => {
      if (text.peek() === '' && typed !== '') {
        const isMirrored = settings.now.peek().screen === 'mirrored';
        state.isTypedMarked.value = !screen.isClear();
        // What was said about the reading before has been read by now.
        remark.value = '';
        if (isMirrored) screen.wake();
        else screen.hush();
      }
      text.value = typed;
      const kind = asking.peek()?.kind;
      if (kind === 'doubt' || kind === 'decimal') asking.value = undefined;
    },
    command: (given) => {
      const key = given === 'accept' ? 'Enter' : given === 'clear' ? 'Escape' : undefined;
      const choices = key && asking.peek()?.choices;
      if (!choices) {
        commands[given]();
        return;
      }
      // A question with no such answer stays as it is: it wants one of its own keys.
      choices.find((choice) => choice.key === key)?.act('');
    },
    answer: (choice, words = '') => choice.act(words),
    jump: steering.jump,
    note: aside.note,
    show,
    begin: aside.begin,
    resume: () => {
      state.isPaused.value = false;
      state.go(current.peek());
    },
    start: () => {
      outbox.start(createHearing(state));
      // Another reading, or another kind of screen, wants the field with its mark. A sheet that is read anew does not:
      // the mark would come back while somebody reads the display.
      const shown = computed(() => {
        const step = stage.value === 'reading' ? current.value : undefined;
        return JSON.stringify([settings.now.value.screen, step?.key, step?.field]);
      });
      stopFollowing = effect(() => {
        shown.value;
        screen.show(stage.peek() === 'reading' ? current.peek() : undefined);
      });
    },
    stop: () => {
      stopFollowing();
      voice.hush();
      screen.stop();
      outbox.stop();
    },
  };
}

export type { CaptureParts, Panel } from './store/state';
