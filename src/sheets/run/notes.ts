import type { PlanBuilder } from '../builder';
import { FORMAT } from './layout';

/** Name of the cell for what was noted while readings were taken, line by line. */
export const NOTES = 'CaptureNotes';

/** Longest text of the notes, in characters; a cell of Excel holds 32 767 (Excel specifications and limits). */
export const NOTES_MAX = 8000;

/** One wide row for what the readings alone do not tell: why a value stands although it was questioned. */
export function putNotes(b: PlanBuilder, row: number, last: string): void {
  b.put(`A${row}`, { role: 'label', value: 'Notes' });
  b.wide(`B${row}:${last}${row}`, { role: 'words', format: FORMAT.text }).height(row, 52);
  b.name(NOTES, `B${row}`, 'What was noted while readings were taken');
  b.validate({
    range: `B${row}`,
    rule: { type: 'length', max: NOTES_MAX },
    prompt: {
      title: 'Notes',
      message:
        'What the readings alone do not tell. Guided capture adds a line for each value that was kept although it was questioned.',
    },
    refusal: { title: 'Notes', message: `Notes: at most ${NOTES_MAX} characters.`, style: 'stop' },
  });
}
