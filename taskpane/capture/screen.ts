import { type ReadonlySignal, signal } from '@preact/signals';
import { type FieldId, testField } from '../../src/fields/field';
import { type Channel, openChannel } from '../fields/protocol';
import { createRemote } from '../fields/remote';
import type { Settings } from './settings';
import type { Step } from './task';

/** What the projector's screen shows, as far as this window knows, and the mark that comes before a reading. */
export interface Screen {
  /** Name of the pair, for the address of the fields page. */
  readonly pair: string;
  /** off: nothing heard of a fields window yet; linked: it answers; silent: it has stopped answering. */
  readonly state: ReadonlySignal<'off' | 'linked' | 'silent'>;
  /** The field it says it shows; undefined when it does not say. */
  readonly field: ReadonlySignal<FieldId | undefined>;
  /** Something that is no part of the field is on the screen: the mark, or this window's strip. */
  readonly isMarked: ReadonlySignal<boolean>;
  /** Whether the field has been there without mark and strip since the step began: the display could be read. */
  isClear(): boolean;
  /** What is wrong with the fields window, in its own words. */
  readonly findings: ReadonlySignal<readonly string[]>;
  /** Shows the field of a step, with the mark, which goes by itself. */
  show(step: Step | undefined): void;
  /** Takes the mark away now. */
  hush(): void;
  /** Brings this window's strip back, on a mirrored screen. */
  wake(): void;
  stop(): void;
}

/** A fields window that is there answers within a few frames. */
export const ANSWER_MS = 2000;

export function createScreen(
  settings: Settings,
  pair: string,
  open: (pair: string) => Channel = openChannel,
): Screen {
  const state = signal<'off' | 'linked' | 'silent'>('off');
  const field = signal<FieldId | undefined>(undefined);
  const isMarked = signal(false);
  const findings = signal<readonly string[]>([]);
  let wanted: Step | undefined;
  let isClear = true;
  let marking: ReturnType<typeof setTimeout> | undefined;
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const remote = createRemote(open(pair), (message) => {
    if (message.kind === 'closed') {
      clearTimeout(waiting);
      state.value = 'silent';
      field.value = undefined;
      findings.value = [];
      return;
    }
    if (message.kind === 'refused') return;
    const isNew = state.peek() !== 'linked';
    state.value = 'linked';
    field.value = message.shown?.field;
    findings.value = message.facts.findings.map(({ text }) => text);
    // A window that has just come up shows its start page, or what it showed before.
    if (isNew && wanted) mark(wanted);
  });

  const isFollowed = () => settings.now.peek().screen === 'second screen';

  function give(step: Step, isWithMark: boolean): void {
    if (!isFollowed() || state.peek() === 'off') return;
    const { number, u, v } = step;
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      state.value = 'silent';
      field.value = undefined;
    }, ANSWER_MS);
    remote
      .show({ field: step.field, marker: isWithMark ? { number, u, v } : null })
      .then((answer) => {
        if (answer) clearTimeout(waiting);
      })
      .catch((error: unknown) => {
        clearTimeout(waiting);
        findings.value = [error instanceof Error ? error.message : String(error)];
      });
  }

  function mark(step: Step): void {
    clearTimeout(marking);
    const { screen, markSeconds } = settings.now.peek();
    const isLinked = screen === 'second screen' && state.peek() === 'linked' && !step.isAnywhere;
    const canMark = screen === 'mirrored' || isLinked;
    isMarked.value = canMark;
    isClear = !canMark;
    give(step, canMark);
    if (canMark) marking = setTimeout(hush, markSeconds * 1000);
  }

  function hush(): void {
    clearTimeout(marking);
    isClear = true;
    if (!isMarked.peek()) return;
    isMarked.value = false;
    if (wanted) give(wanted, false);
  }

  remote.ask();
  return {
    pair,
    state,
    field,
    isMarked,
    isClear: () => isClear,
    findings,
    show: (step) => {
      wanted = step;
      clearTimeout(marking);
      if (step) mark(step);
      else isMarked.value = settings.now.peek().screen === 'mirrored';
    },
    hush,
    wake: () => {
      if (settings.now.peek().screen !== 'mirrored') return;
      clearTimeout(marking);
      isMarked.value = true;
      if (wanted) marking = setTimeout(hush, settings.now.peek().markSeconds * 1000);
    },
    stop: () => {
      clearTimeout(marking);
      clearTimeout(waiting);
      remote.stop();
    },
  };
}

/** "White". */
export function fieldTitle(id: FieldId): string {
  return testField(id).title;
}
