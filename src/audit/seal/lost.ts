import type { Book } from '../../sheets/book';
import { viewOf } from '../view';
import { readRegister } from './register';

/**
 * What the workbook's register of seals tells and no sheet can: a sealed sheet that was deleted, copied over another,
 * or has lost its mark leaves nothing behind that could be compared. Whole sentences; none where every seal that the
 * register knows has its one sheet.
 */
export function lostSeals(book: Book): string[] {
  const register = readRegister(book.names);
  if (!register) return ['The workbook’s register of seals is damaged: a sealed sheet may be gone.'];
  const bearers = new Map<string, string[]>();
  for (const sheet of book.sheets) {
    const id = viewOf(sheet).identity?.id;
    if (id !== undefined) bearers.set(id, [...(bearers.get(id) ?? []), sheet.name]);
  }
  return [...register.values()].flatMap(({ id, sequence, hash }): string[] => {
    if (hash === '') return [];
    const sheets = bearers.get(id) ?? [];
    if (sheets.length === 1) return [];
    if (sheets.length > 1)
      return [
        `Seal ${sequence} of the sheet with the mark ${id} could be that of ${sheets.map((name) => `“${name}”`).join(' or ')}: each bears the mark.`,
      ];
    return [
      `The workbook remembers seal ${sequence} of a sheet with the mark ${id}, and no sheet bears it: a sealed sheet was deleted or replaced.`,
    ];
  });
}
