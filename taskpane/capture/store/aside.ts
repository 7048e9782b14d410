import { isOpen } from '../order';
import { timeOf } from '../prompt';
import { stepWords } from '../task';
import type { State } from './state';

/** What is entered beside the readings: unit, notes, preparation. */
export interface Aside {
  switchUnit(): void;
  note(words: string): void;
  /** Ends the preparation: what was confirmed goes into the notes, a changed picture mode onto the sheet. */
  begin(mode: string): void;
}

const LINE_MAX = 1000;

export function createAside(state: State): Aside {
  const { task, steps, parts } = state;

  function enterUnit(to: 'lx' | 'fc', taken: number): void {
    const { cells, unit } = task.peek()!;
    state.enter({
      what: 'setting',
      words: `unit of the display: ${to}`,
      writes: [{ ...cells.unit!, value: to, before: unit }],
      ...(taken > 0 && cells.notes
        ? {
            note: `${timeOf(parts.now())} unit of the display changed from ${unit} to ${to} after ${taken} readings`,
          }
        : {}),
    });
    state.asking.value = undefined;
    state.note(`The display is in ${to} now.`);
  }

  return {
    switchUnit: () => {
      const known = task.peek();
      if (!known?.cells.unit) return;
      const { unit } = known;
      const to = unit === 'lx' ? 'fc' : 'lx';
      const taken = steps.peek().filter((step) => !isOpen(step)).length;
      if (taken === 0) {
        enterUnit(to, taken);
        return;
      }
      const leave = () => {
        state.asking.value = undefined;
      };
      const stand = taken === 1 ? '1 reading stands' : `${taken} readings stand`;
      state.ask({
        kind: 'unit',
        message: `${stand} on this sheet in ${unit}, and a sheet has one unit. If the meter has changed over, change it back. Only if all of them were read in ${to} is the unit itself wrong.`,
        choices: [
          { label: `Leave it at ${unit}`, key: 'Enter', act: leave },
          { label: `All were in ${to}`, key: '2', act: () => enterUnit(to, taken) },
        ],
        canNote: false,
      });
    },
    note: (words) => {
      state.panel.value = '';
      const line = words.trim().replace(/\s+/g, ' ');
      if (!line) return;
      if (!task.peek()?.cells.notes) {
        state.note('This sheet has no cell for notes: it was built before there were any.');
        return;
      }
      const step = state.current.peek();
      const where = step ? `${stepWords(step)}: ` : '';
      const note = `${timeOf(parts.now())} ${where}${line}`.slice(0, LINE_MAX);
      state.enter({ what: 'note', words: note, writes: [], note });
      state.note('Noted on the sheet.');
    },
    begin: (mode) => {
      const preparation = state.before.peek();
      const known = task.peek();
      if (!preparation || !known) return;
      const { cells } = known;
      const isNewMode = cells.mode !== undefined && mode.trim() !== known.mode;
      const note = `${timeOf(parts.now())} ${preparation.summary(parts.now())}`.slice(0, LINE_MAX);
      state.enter({
        what: 'note',
        words: 'preparation',
        writes: isNewMode ? [{ ...cells.mode!, value: mode.trim() || null, before: known.mode || null }] : [],
        ...(cells.notes ? { note } : {}),
      });
      preparation.change({ isBegun: true });
      state.go(state.current.peek());
    },
  };
}
