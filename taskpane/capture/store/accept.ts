import type { DecimalMark } from '../../parse/number';
import type { Choice } from '../asking';
import { doubtsAbout } from '../guards/all';
import type { Doubt } from '../guards/doubt';
import { nextOpen } from '../order';
import { number, timeOf } from '../prompt';
import { type Step, stepWords } from '../task';
import { readTyped } from '../typed';
import { screenDoubts } from './screendoubts';
import type { State } from './state';

/** Longest line of notes. */
const LINE_MAX = 1000;

/** Takes what has been typed: understands it, questions it, and puts it on its way. */
export interface Accepting {
  accept(): void;
  /** The display shows over range: noted, and asked for again. */
  over(): void;
}

export function createAccepting(state: State): Accepting {
  const { parts, current, range, lock, steps, task, text, remark } = state;
  /** Decimal mark that this person's numbers have proved, or that was chosen. */
  let mark: DecimalMark | undefined;

  const retype: Choice = { label: 'Type it again', key: 'Escape', act: () => state.clear() };

  function accept(): void {
    const step = current.peek();
    if (!step) return;
    const typed = readTyped(text.peek(), step, task.peek()!.unit, range.peek(), mark);
    switch (typed.kind) {
      case 'blank':
        state.note('Type the number on the display; the arrow down leaves this point open.');
        break;
      case 'refused':
        state.note(typed.message);
        if (parts.settings.now.peek().sound) parts.sound.doubtful();
        break;
      case 'over':
        over(typed.sign);
        break;
      case 'ask':
        askMark(typed.text, typed.point, typed.comma);
        break;
      case 'number':
        mark = typed.proves ?? mark;
        consider(step, typed.value);
    }
  }

  function askMark(typed: string, point: number, comma: number): void {
    const settle = (chosen: DecimalMark) => () => {
      mark = chosen;
      state.asking.value = undefined;
      accept();
    };
    state.ask({
      kind: 'decimal',
      message: `\u201c${typed}\u201d can mean ${number(point)} or ${number(comma)}. Which is it?`,
      choices: [
        { label: number(point), key: '1', act: settle('point') },
        { label: number(comma), key: '2', act: settle('comma') },
        retype,
      ],
      canNote: false,
    });
  }

  function consider(step: Step, value: number): void {
    const candidate = { task: task.peek()!, step, value, factor: range.peek(), steps: steps.peek() };
    const doubts = [...screenDoubts(state, step), ...doubtsAbout(candidate)];
    const remarks = doubts.filter(({ isQuestion }) => !isQuestion).map(({ message }) => message);
    askNext(
      step,
      value,
      doubts.filter(({ isQuestion }) => isQuestion),
      remarks,
      [],
    );
  }

  /** One question after the other; what is kept all the same is noted. */
  function askNext(
    step: Step,
    value: number,
    [doubt, ...others]: readonly Doubt[],
    remarks: readonly string[],
    notes: readonly string[],
  ): void {
    if (!doubt) {
      take(step, value, remarks, notes);
      return;
    }
    const keep = (words: string) => {
      const own = words.trim().replace(/\s+/g, ' ');
      askNext(step, value, others, remarks, [...notes, own ? `${doubt.note}: ${own}` : doubt.note]);
    };
    state.ask({
      kind: 'doubt',
      message: doubt.message,
      choices: [{ label: 'Keep it, with a note', key: 'Enter', act: keep }, retype],
      canNote: true,
    });
  }

  function take(step: Step, value: number, remarks: readonly string[], notes: readonly string[]): void {
    const factor = range.peek();
    const isLocked = lock.peek() !== undefined;
    const hasNotes = task.peek()!.cells.notes !== undefined;
    const line = notes.length > 0 ? `${timeOf(parts.now())} ${notes.join('; ')}`.slice(0, LINE_MAX) : '';
    const words = `${number(value)} × ${number(factor)}`;
    state.enter({
      what: 'reading',
      words: `${stepWords(step)}: ${words}`,
      step: step.key,
      writes: [
        { ...step.at, value, before: step.value },
        ...(factor === step.factor || isLocked
          ? []
          : [{ ...step.rangeAt, value: factor, before: state.overlay.held(step.rangeAt) }]),
      ],
      ...(line && hasNotes ? { note: line } : {}),
    });
    if (!isLocked) state.meterRange.value = factor;
    if (parts.settings.now.peek().sound) parts.sound.taken();
    const next = nextOpen(steps.peek(), state.isClosing, step.key);
    const isNewGroup = next !== undefined && next.group !== step.group;
    remark.value = [
      ...remarks,
      line && !hasNotes ? 'This sheet has no cell for notes: write down why it was kept.' : '',
      (isNewGroup && state.groupOf(next).intro) || '',
    ]
      .filter(Boolean)
      .join(' ');
    state.go(next, [`${words} taken.`, remark.peek(), next ? '' : 'All readings are taken.'].join(' '));
  }

  function over(sign?: string): void {
    const step = current.peek();
    if (!step) return;
    const factor = number(range.peek());
    state.clear();
    state.enter({
      what: 'reading',
      words: `${stepWords(step)}: over range × ${factor}`,
      step: step.key,
      writes: [{ ...step.at, value: 'over', before: step.value }],
    });
    const asRead = sign
      ? `\u201c${sign}\u201d is how many meters show over range. If the display showed the number 1, press / and type 1. `
      : '';
    state.note(
      `${asRead}Over range at × ${factor}, noted on the sheet. Turn the meter up, press + to match, and read again; the arrow down leaves it.`,
    );
  }

  return { accept, over: () => over() };
}
