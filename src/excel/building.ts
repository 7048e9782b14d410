import type { Plan } from '../sheets/plan';
import { freeName } from '../sheets/realize';
import { type Begun, begin, takeAway } from './begun';
import { type Abilities, writeExtras } from './extras';
import { type Built, type Course, HostError } from './host';
import { isCode } from './trouble';
import { hideMark, writePlan } from './write';

/** A batch of its own, whose faults come as words a person can use. */
type Run = <T>(batch: (context: Excel.RequestContext) => Promise<T>) => Promise<T>;

/**
 * A planned sheet in the workbook, or nothing. Four round trips: what stands there, the empty sheet with its mark, its
 * contents, what it does well without; a long table takes a few more.
 */
export function buildSheet(
  run: Run,
  plan: Plan,
  has: Abilities,
  { progress, signal }: Course,
): Promise<Built> {
  return run(async (context) => {
    const { worksheets, application } = context.workbook;
    worksheets.load('items/id,items/name');
    await context.sync();
    const taken = worksheets.items.map((sheet) => sheet.name);
    const before = new Set(worksheets.items.map((sheet) => sheet.id));
    const begun: Begun = { plan, name: freeName(plan.title, taken), before };
    const suspend = () => {
      application.suspendApiCalculationUntilNextSync();
      application.suspendScreenUpdatingUntilNextSync();
    };
    const sent = async (done: number) => {
      await context.sync();
      if (signal?.aborted) throw stopped();
      progress?.(done);
      suspend();
    };
    try {
      const sheet = await begin(context, begun);
      suspend();
      hideMark(sheet);
      await writePlan(sheet, begun.name, plan, sent);
      await context.sync();
      const lacking = await writeExtras(context, sheet, plan, has, () => {
        sheet.activate();
        sheet.getRange(plan.start).select();
      });
      progress?.(1);
      return { sheet: begun.name, ...(lacking.length > 0 ? { lacking } : {}) };
    } catch (reason) {
      // A name that was taken is refused before anything is added.
      const isNothingAdded = begun.id === undefined && isCode(reason, 'ItemAlreadyExists');
      if (!isNothingAdded) await run((again) => takeAway(again, begun));
      throw reason;
    }
  });
}

function stopped(): HostError {
  return new HostError('stopped', 'Building was stopped.', 'Nothing is left of the sheet that was begun.');
}
