import { type Course, HostError } from '../../src/excel/host';
import type { Store } from '../store';
import type { LogRow } from './logrow';
import { type BatchView, serialsOn } from './view';

/** Puts lines of a meter's log into a batch, unless the sheet has changed under them. */
export async function writeLog(
  { host, log, today }: Store,
  into: BatchView,
  rows: readonly LogRow[],
  source: string,
  course: Course,
): Promise<void> {
  const { blocksOf } = await import('./logblocks');
  const now = await host.readNamed(into.sheet, ['Serials', 'UnitRemark']);
  const moved = movedRow(rows, serialsOn(now));
  if (moved)
    throw new HostError(
      'refused',
      `Line ${moved.target! + 1} of “${into.sheet}” is no longer the one for “${moved.serial}”: somebody has changed the serial numbers there.`,
      'Nothing was written. Look at the preview again, which follows the sheet.',
    );
  const remarks = now.UnitRemark?.values.map((row) => row[0] ?? null) ?? [];
  const dated = `${source}, ${today}`;
  await host.writeBlocks(into.sheet, blocksOf(rows, into.setup.readings, remarks, dated), course);
  void log.note('imported', into.sheet, `${rows.length} lines of a meter log`);
}

/** The first row of a log whose line on the sheet belongs to another unit by now. */
function movedRow(rows: readonly LogRow[], serials: readonly string[]): LogRow | undefined {
  return rows.find(({ target, serial, isNew }) => serials[target!] !== (isNew ? '' : serial));
}
