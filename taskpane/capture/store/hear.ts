import { createBefore } from '../before';
import type { JournalRecord } from '../entry';
import { isSame } from '../keeper/equal';
import type { ToWindow } from '../messages';
import { isOpen, nextOpen } from '../order';
import type { Task } from '../task';
import type { State } from './state';

/** What the pane says, into the window's state. */
export function createHearing(state: State): (message: ToWindow) => void {
  const { parts, overlay, task, steps } = state;

  function hearTask(next: Task, asOf: number): void {
    const isOther = task.peek()?.id !== next.id;
    overlay.read(next, asOf);
    state.why.value = '';
    if (!isOther) return;
    // What an earlier window accepted and nobody has confirmed stands in front of the sheet's own cells.
    for (const record of parts.outbox.unconfirmed.peek()) {
      if (record.entry.run === next.id) overlay.lay(record);
    }
    state.before.value = createBefore(parts.shelf, `${parts.prefix}before.${next.id}`);
    const step = nextOpen(steps.peek(), state.isClosing);
    const taken = steps.peek().filter((one) => !isOpen(one));
    state.meterRange.value = taken.at(-1)?.factor;
    state.remark.value = (step && taken.length === 0 && state.groupOf(step).intro) || '';
    state.go(step);
    askConflict();
  }

  function hearTold(record: JournalRecord, time: number): void {
    overlay.settle(record, time);
    if (record.why) state.note(record.why);
    if (record.state === 'conflict') askConflict();
    if (record.state === 'written') tellReplaced(record);
  }

  /** A cell that somebody else has filled while an entry waited: the person says which stands. */
  function askConflict(): void {
    const record = parts.outbox.records
      .peek()
      .find(({ entry, state: became }) => became === 'conflict' && entry.run === task.peek()?.id);
    if (!record || state.asking.peek()) return;
    const { entry, held } = record;
    const found = held?.find((cell, i) => !isSame(cell, entry.writes[i]?.value ?? null));
    const decide = (choice: 'mine' | 'theirs') => () => {
      state.asking.value = undefined;
      parts.outbox.decide(entry.id, choice);
      if (choice === 'theirs') overlay.settle({ ...record, state: 'kept' }, parts.now());
      askConflict();
    };
    state.ask({
      kind: 'conflict',
      message: `${entry.words}: while this waited, somebody put ${shownCell(found)} there.`,
      choices: [
        { label: 'Leave what is there', key: 'Enter', act: decide('theirs') },
        { label: 'Write mine', key: '2', act: decide('mine') },
      ],
      canNote: false,
    });
  }

  /** Written in one round trip over something that this window did not know of: the person is told, and can undo. */
  function tellReplaced({ entry, held }: JournalRecord): void {
    if (entry.what === 'undo') return;
    const i = entry.writes.findIndex(
      ({ before, value }, k) =>
        held?.[k] !== undefined && !isSame(held[k], before) && !isSame(held[k], value),
    );
    if (i < 0) return;
    state.note(
      `${entry.words} was written over ${shownCell(held![i])}, which somebody else had put there just before. Undo brings it back.`,
    );
  }

  return (message) => {
    if (message.kind === 'task') hearTask(message.task, message.asOf);
    else if (message.kind === 'told') hearTold(message.record, message.time);
    else if (message.kind === 'no-task') state.why.value = message.why;
    else state.fault.value = message.words;
  };
}

function shownCell(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'nothing';
  return typeof value === 'object' ? (value as { error: string }).error : String(value);
}
