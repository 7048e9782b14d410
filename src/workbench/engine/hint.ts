import type { Rect } from '../../sheets/address';
import type { Sheet } from './sheet';

/** A short text about a cell. A note has no title. */
export interface Hint {
  readonly title: string;
  readonly message: string;
}

/** The prompt of a cell's validation; where it has none, the cell's note. */
export function hintOf(sheet: Sheet, { row, column }: Rect): Hint | undefined {
  const prompt = sheet.validationAt(row, column)?.prompt;
  if (prompt?.showPrompt && (prompt.title || prompt.message))
    return { title: prompt.title, message: prompt.message };
  const note = sheet.notes.get(row, column);
  return note === undefined ? undefined : { title: '', message: note };
}
