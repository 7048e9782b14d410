import { serialKey } from '../../src/procurement/lot/serials';
import { batchOf } from '../batch/state';
import type { Store } from '../store';
import { runWithSerial } from './unitrun';

/**
 * Brings one unit to the front as a run: the run that bears its serial number, else a new one of its row in a batch,
 * else the form of a run with the serial number filled in.
 */
export async function openUnit(store: Store, serial: string): Promise<void> {
  const { host, workbook, front, troubles } = store;
  const key = serialKey(serial);
  const attempt = await troubles.attempt('Looking for the unit', async () => {
    const run = runWithSerial(await host.readSome({ run: ['SerialNumber'] }), serial);
    if (run !== undefined) {
      await host.select(run, 'A1');
      return { run };
    }
    const batches = await host.readSome({ batch: ['Serials'] });
    return {
      batch: batches.find((one) => one.values.Serials?.values.some(([own]) => serialKey(own) === key))?.sheet,
    };
  });
  if (!attempt.ok) return;
  const { run, batch } = attempt.value;
  if (run !== undefined) {
    await workbook.look();
    front.arrive(`“${run}” is the run of ${serial}.`);
  } else if (batch !== undefined) await batchOf(store).openRunOf(batch, serial);
  else {
    const { newRunOf } = await import('../run/newrun');
    newRunOf(store).form.type('serial', serial);
    store.open('run');
  }
}
