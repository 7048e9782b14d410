import { undoWrites } from '../history';
import { stepBy } from '../order';
import { number } from '../prompt';
import { shiftedRange } from '../range';
import type { State } from './state';

/** Going about among the readings. */
export interface Steering {
  undo(): void;
  shiftRange(by: 1 | -1): void;
  move(by: 1 | -1): void;
  jump(key: string): void;
}

export function createSteering(state: State): Steering {
  const { steps, current, range, lock, stack, remark } = state;
  return {
    undo: () => {
      const last = stack.peek()[0];
      if (!last) {
        state.note('There is nothing to undo.');
        return;
      }
      state.enter({
        what: 'undo',
        words: `undone: ${last.entry.words}`,
        writes: undoWrites(last),
        undoes: last.entry.id,
      });
      remark.value = `Undone: ${last.entry.words}.`;
      const step = steps.peek().find(({ key }) => key === last.entry.step);
      state.go(step ?? current.peek(), remark.peek());
    },
    shiftRange: (by) => {
      const why = lock.peek();
      if (why !== undefined) {
        state.note(why);
        return;
      }
      state.meterRange.value = shiftedRange(range.peek(), by);
      // A question about the range is answered by changing it; the number stands and is looked at anew.
      if (state.asking.peek()?.kind === 'doubt') state.asking.value = undefined;
      state.said.value = `Range × ${number(range.peek())}.`;
    },
    move: (by) => {
      const from = current.peek();
      const step = from ? stepBy(steps.peek(), from.key, by) : steps.peek().at(by > 0 ? 0 : -1);
      remark.value = '';
      if (step) state.go(step);
    },
    jump: (key) => {
      state.panel.value = '';
      remark.value = '';
      state.go(steps.peek().find((step) => step.key === key));
    },
  };
}
