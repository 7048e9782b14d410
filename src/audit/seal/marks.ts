import { cellName, cellsOf, isAddress, rectOf } from '../../sheets/address';
import { mark } from './bytes';
import { type Entry, GROUPS, type Group } from './entry';

/** Marks of sealed entries by key, to tell which of them differ. */
export type Marks = Readonly<Record<Group, ReadonlyMap<string, string>>>;

/** Two entries of one key do not occur: addresses and names are unique on a sheet. */
export function marksOf(entries: readonly Entry[]): Marks {
  const maps = Object.fromEntries(GROUPS.map((group) => [group, new Map<string, string>()]));
  for (const { group, key, text } of entries) maps[group]!.set(key, mark(text));
  return maps as Record<Group, Map<string, string>>;
}

/** `A5:C5,E5~marks` for cells in reading order, `Name,Name~marks` for names: four characters a mark. */
export function writeMarks(marks: Marks): string[] {
  return GROUPS.map((group) => {
    const keys = [...marks[group].keys()];
    const list = group === 'name' || group === 'sheet' ? keys : runs(keys);
    return `${list.join(',')}~${[...marks[group].values()].join('')}`;
  });
}

/** The marks of a record; undefined if they are damaged. */
export function readMarks(texts: readonly string[]): Marks | undefined {
  const maps = {} as Record<Group, Map<string, string>>;
  for (const [i, group] of GROUPS.entries()) {
    const [list = '', all = ''] = (texts[i] ?? '').split('~');
    const items = list === '' ? [] : list.split(',');
    const isArea = group !== 'name' && group !== 'sheet';
    if (isArea && !items.every(isShort)) return undefined;
    const keys = isArea ? items.flatMap(cellsOf) : items;
    if (all.length !== keys.length * 4) return undefined;
    maps[group] = new Map(keys.map((key, at) => [key, all.slice(at * 4, at * 4 + 4)]));
  }
  return maps;
}

/** A run of cells of one row, as we write them. */
function isShort(item: string): boolean {
  return !item.includes('$') && isAddress(item) && rectOf(item).rows === 1;
}

/** Cells in reading order → runs within rows: A5 B5 C5 E5 → A5:C5 E5. */
function runs(cells: readonly string[]): string[] {
  const found: { row: number; from: number; to: number }[] = [];
  for (const at of cells) {
    const { row, column } = rectOf(at);
    const last = found.at(-1);
    if (last && last.row === row && last.to === column - 1) last.to = column;
    else found.push({ row, from: column, to: column });
  }
  return found.map(({ row, from, to }) =>
    from === to ? cellName(row, from) : `${cellName(row, from)}:${cellName(row, to)}`,
  );
}
