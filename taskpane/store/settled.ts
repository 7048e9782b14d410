import { unsettledOn } from '../../src/audit/settled';
import { type Host, HostError } from '../../src/excel/host';
import { count } from '../parse/block';

/** How long a sheet is waited for, in ms. */
interface Patience {
  /** Until everything is calculated and no function is busy. */
  readonly busy: number;
  /** Until results agree: one that changes a moment later than its twin may show its old value meanwhile. */
  readonly differing: number;
  readonly pause: number;
}
const PATIENCE: Patience = { busy: 30_000, differing: 3_000, pause: 500 };
/** So many cells are named, the others counted. */
const NAMED = 6;

/**
 * Waits until a sheet can be vouched for: everything calculated, no function busy, every result agreeing with its
 * plain formula. Programs may keep an old value in a cell while its function is asked anew (office-js issue 4152).
 * @throws HostError that names the cells, if it comes to no rest in time
 */
export async function settledSheet(host: Host, sheet: string, patience = PATIENCE): Promise<void> {
  const began = Date.now();
  for (;;) {
    await host.settled(patience.busy);
    const [found] = (await host.book({ sheets: [sheet] })).sheets;
    // Whoever asked says so of a sheet that is gone.
    if (!found) return;
    const { busy, differing, alone } = unsettledOn(found);
    if (busy.length + differing.length + alone.length === 0) return;
    const waited = Date.now() - began;
    if (waited >= (busy.length > 0 ? patience.busy : patience.differing))
      throw unsettled(sheet, { busy, differing, alone }, waited);
    await new Promise((resolve) => setTimeout(resolve, patience.pause));
  }
}

function unsettled(
  sheet: string,
  { busy, differing, alone }: ReturnType<typeof unsettledOn>,
  waited: number,
): HostError {
  if (busy.length > 0) {
    return new HostError(
      'busy',
      `${count(busy.length, 'cell')} of \u201c${sheet}\u201d had no result after ${Math.round(waited / 1000)} seconds: ${named(busy)}. Nothing was done.`,
      'Wait until no cell shows #BUSY!, then try again. If it stays, refresh the results in the pane.',
    );
  }
  if (differing.length > 0) {
    return new HostError(
      'refused',
      `On \u201c${sheet}\u201d ${count(differing.length, 'result')} and plain formula differ: see ${named(differing)}. Nothing was done.`,
      'Check the sheet to find the cause first.',
    );
  }
  return new HostError(
    'refused',
    `On \u201c${sheet}\u201d ${count(alone.length, 'result')} of the functions could not be had: see ${named(alone)}. Nothing was done.`,
    'Refresh the results in the pane or check the sheet, then try again.',
  );
}

function named(cells: readonly string[]): string {
  const more = cells.length - NAMED;
  return `${cells.slice(0, NAMED).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}
