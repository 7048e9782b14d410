import type { CellPlace, Host, SheetPlace } from '../../../src/excel/host';
import type { CellValue } from '../../../src/sheets/book';
import { NOTES, NOTES_MAX } from '../../../src/sheets/run/notes';
import type { EntryWrite, JournalRecord } from '../entry';
import { answered } from './answer';
import { isSame } from './equal';

export type Written =
  | { readonly state: 'written'; readonly held: CellValue[]; readonly why?: string }
  | { readonly state: 'conflict'; readonly held: CellValue[] };

const NOTES_AT: CellPlace = { name: NOTES, row: 0, column: 0 };

/**
 * Brings one entry into the workbook. The first time it is one round trip. Once it may have been written without
 * anybody hearing so, the cells are looked at first: what stands there already is not written again, and what
 * somebody else put there meanwhile is not written over.
 */
export async function writeEntry(
  host: Host,
  tab: string,
  { entry, isAttempted }: JournalRecord,
  late: () => void,
): Promise<Written> {
  const { writes, note } = entry;
  // Tabs may have exchanged their names since the pane looked: the id decides.
  const sheet: SheetPlace = { sheet: tab, id: entry.run };
  let held = writes.map(({ before }) => before);
  if (writes.length > 0 && isAttempted) {
    const now = await answered(host.readCells(sheet, writes), late);
    const open = writes.filter(({ value }, i) => !isSame(now[i]!, value));
    if (open.some((write) => !isSame(now[writes.indexOf(write)]!, write.before))) {
      return { state: 'conflict', held: [...now] };
    }
    if (open.length > 0) await answered(host.writeCells(sheet, open.map(cellOf)), late);
  } else if (writes.length > 0) {
    held = [...(await answered(host.writeCells(sheet, writes.map(cellOf)), late))];
  }
  if (note === undefined) return { state: 'written', held };
  const isNoted = await addNote(host, sheet, note, late);
  return { state: 'written', held, ...(isNoted ? {} : { why: NO_ROOM }) };
}

const NO_ROOM = 'The notes on the sheet are full: the reading stands there, its note does not.';

function cellOf({ name, row, column, value }: EntryWrite) {
  return { name, row, column, value };
}

/** Adds a line to the notes, once. False if there is no room. */
async function addNote(host: Host, sheet: SheetPlace, line: string, late: () => void): Promise<boolean> {
  const [first] = await answered(host.readCells(sheet, [NOTES_AT]), late);
  let base = textOf(first!);
  if (base.split('\n').includes(line)) return true;
  let expected = base;
  for (;;) {
    const lines = base === '' ? [] : base.split('\n');
    const text = (lines.includes(line) ? lines : [...lines, line]).join('\n');
    if (text.length > NOTES_MAX) return false;
    const [before] = await answered(host.writeCells(sheet, [{ ...NOTES_AT, value: text }]), late);
    if (textOf(before!) === expected) return true;
    // Somebody else noted something between our look and our write: theirs goes back, with ours behind it.
    base = textOf(before!);
    expected = text;
  }
}

function textOf(value: CellValue): string {
  return value === null || typeof value === 'object' ? '' : String(value);
}
