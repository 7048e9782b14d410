import type { SheetKind } from '../../src/sheets/plan';
import { acceptOf } from '../accept/state';
import { TICKED } from '../form/field';
import { needOf } from '../need/state';
import { offersOf } from '../offers/state';
import { cellOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import type { Store } from '../store';
import type { TemplateTexts } from './choice';

export interface TakenSheets {
  /** What was taken from which sheet, in words. */
  readonly words: readonly string[];
  /** Sheets to build the next time: those there are. */
  readonly sheets: Partial<TemplateTexts>;
}

const PLAN_CELLS = [
  ['aql', 'Aql'],
  ['level', 'InspectionLevel'],
  ['severity', 'Severity'],
] as const;

/**
 * Fills the forms from the sheets of a bid: rooms, plan of use and currency, meter, image, measuring and what is known
 * of the doubt, sample plan and how decisions count. Of several sheets of a kind the last one is taken.
 */
export async function takeSheets(store: Store): Promise<TakenSheets> {
  const { host } = store;
  const { sheets } = await host.survey();
  const last = (kind: SheetKind) => sheets.filter((one) => one.kind === kind).at(-1)?.sheet;
  const words: string[] = [];
  const need = last('need');
  if (need !== undefined) {
    needOf(store).takeSheet(await host.read(need));
    words.push(`the rooms of “${need}”`);
  }
  const offers = last('offers');
  if (offers !== undefined) {
    const step = offersOf(store);
    step.takeSheet(await host.read(offers));
    // The bidders of one bid are not those of the next.
    step.lines.put([]);
    words.push(`the plan of use and the currency of “${offers}”`);
  }
  const run = last('run');
  if (run !== undefined) {
    const { textsOfRun } = await import('../setup/fromsheet');
    newRunOf(store).form.take(await textsOfRun(host, run));
    words.push(`the meter, its doubt, the image and what is measured of “${run}”`);
  }
  const lot = last('acceptance');
  if (lot !== undefined) {
    const reading = await host.read(lot);
    const { form } = acceptOf(store);
    for (const [id, name] of PLAN_CELLS) {
      const value = cellOf(reading, name);
      if (typeof value !== 'number' && (typeof value !== 'string' || value === '')) continue;
      form.take({ [id]: String(value) });
      // The plan of a template is that of its tender.
      needOf(store).tender.take({ [id]: String(value) });
    }
    const counting = cellOf(reading, 'Counting');
    if (typeof counting === 'string') form.take({ counting });
    words.push(`the sample plan of “${lot}”`);
  }
  const has = (kind: SheetKind) => (last(kind) === undefined ? '' : TICKED);
  return {
    words,
    sheets:
      words.length === 0
        ? {}
        : {
            need: has('need'),
            offers: has('offers'),
            batch: has('batch'),
            acceptance: has('acceptance'),
            comparison: has('comparison'),
            certificates: has('certificate'),
            overview: has('overview'),
          },
  };
}
