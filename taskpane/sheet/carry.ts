import type { SheetReading } from '../../src/excel/host';
import { captureOf } from '../capture/fetched';
import { cellOf } from '../run/cell';
import type { Store } from '../store';
import type { NextThing } from './next';

/** Does the next thing with a sheet, and brings along what the sheet knows. */
export async function carryOn(store: Store, { id, to }: NextThing): Promise<void> {
  const { front, host, workbook, troubles } = store;
  const sheet = front.sheet.peek();
  if (!sheet) return;
  const read = async (name = sheet.sheet): Promise<SheetReading | undefined> => {
    const attempt = await troubles.attempt('Reading the sheet', () => host.read(name));
    return attempt.ok ? attempt.value : undefined;
  };
  const goThere = async () => {
    await troubles.attempt('Going to the sheet', () => host.select(to!, 'A1'));
    front.follow();
    await workbook.look();
  };
  switch (id) {
    case 'capture':
      return captureOf(store).service.peek()?.open();
    case 'go':
      return goThere();
    case 'link into': {
      await goThere();
      const { acceptOf } = await import('../accept/state');
      const accept = acceptOf(store);
      accept.followed.pick(to!);
      return accept.takeResults('link');
    }
    case 'certificate':
      return store.open('certificate');
    case 'comparison':
      return store.open('comparison');
    case 'offers': {
      const { offersOf } = await import('../offers/state');
      const step = offersOf(store);
      if (sheet.kind === 'offers') step.takeSheet();
      else step.need.pick(sheet.sheet);
      return store.open('offers');
    }
    case 'full run': {
      const reading = await read();
      if (!reading) return;
      const { spotAnswers } = await import('../capture/answers');
      const best = spotAnswers(reading)[0]?.label;
      const { newRunOf } = await import('../run/newrun');
      if (best) newRunOf(store).form.type('projector', best);
      return store.open('run');
    }
    case 'lot': {
      const reading = await read();
      if (!reading) return;
      const { acceptOf } = await import('../accept/state');
      acceptOf(store).takeOffer(reading);
      return store.open('lot');
    }
    case 'batch': {
      const reading = await read();
      if (!reading) return;
      const { batchOf } = await import('../batch/state');
      await batchOf(store).takeLot(reading);
      return store.open('batch');
    }
    case 'failing': {
      const reading = await read();
      if (!reading) return;
      const serial = String(cellOf(reading, 'Failures') ?? '');
      const { openUnit } = await import('./openunit');
      return openUnit(store, serial);
    }
    case 'ageing': {
      const { ageingOf } = await import('../ageing/state');
      await ageingOf(store).takeSheet(sheet.sheet);
      return store.open('ageing');
    }
    default:
      return undefined;
  }
}
