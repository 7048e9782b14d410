import { KINDS } from './kinds/all';
import { linkedSheets } from './kinds/links';
import type { SheetView } from './view';

/** Names of the sheets that figures of a sheet come from: by a link, or named in words; these need not be there. */
export function sheetsBehind(view: SheetView): string[] {
  const kind = view.identity?.kind;
  const named = kind === undefined ? [] : (KINDS[kind]?.named?.(view) ?? []);
  return [...new Set([...linkedSheets(view), ...named])];
}
