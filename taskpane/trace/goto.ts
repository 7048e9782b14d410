import type { Store } from '../store';

/** Puts the selection on a cell or range of any sheet. */
export async function goTo({ troubles, host }: Store, sheet: string, at: string): Promise<void> {
  await troubles.attempt('Going to the cell', () => host.select(sheet, at));
}
