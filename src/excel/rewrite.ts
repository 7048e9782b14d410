import { SEAL } from '../audit/seal/names';
import { isUnfinished } from '../sheets/overview/unfinished';
import { IDENTITY, identityFormula, type Plan } from '../sheets/plan';
import { BUILT_BY } from '../sheets/program';
import { writeExtras } from './extras';
import { HostError } from './host';
import { type Opened, protectionOf } from './protect';
import { identityOf, notOurs, ownNames } from './read';
import { writeContents } from './write';

/** Three round trips: what stands there, everything at once, what the sheet does well without. */
export async function rewrite(
  context: Excel.RequestContext,
  sheet: string,
  plan: Plan,
  hasNotes: boolean,
  opened: Opened,
): Promise<void> {
  const { worksheets, application } = context.workbook;
  const worksheet = worksheets.getItem(sheet);
  const { protection, names } = worksheet;
  protection.load('protected');
  names.load('items/name,items/formula,items/scope');
  const used = worksheet.getUsedRange();
  used.load('address');
  await context.sync();
  const own = ownNames(names);
  const identity = identityOf(own.map(({ name, formula }) => ({ name, formula: String(formula) })));
  if (!identity) throw notOurs(sheet);
  if (identity.kind !== plan.kind || identity.id !== plan.id) {
    throw new HostError(
      'refused',
      `\u201c${sheet}\u201d is another sheet than the one to be written anew.`,
      'Nothing was written. Look at the workbook again.',
    );
  }
  if (own.some(({ name }) => name === SEAL)) {
    throw new HostError(
      'refused',
      `\u201c${sheet}\u201d is sealed, so it stays as it stands.`,
      'Open the seal in the Trace step, or build another sheet.',
    );
  }
  application.suspendApiCalculationUntilNextSync();
  application.suspendScreenUpdatingUntilNextSync();
  opened.open(sheet, worksheet, {});
  const all = worksheet.getRange(used.address.slice(used.address.lastIndexOf('!') + 1));
  all.unmerge();
  all.conditionalFormats.clearAll();
  all.dataValidation.clear();
  all.clear();
  for (const item of own) {
    if (isUnfinished(item.name)) continue;
    if (item.name !== IDENTITY) item.delete();
    // What stands there now has today's layout, whatever the sheet had before.
    else if (identity.version !== plan.version) {
      item.formula = identityFormula(plan);
      item.comment = BUILT_BY;
    }
  }
  writeContents(worksheet, sheet, plan);
  // A pane that is closed now leaves it protected.
  protection.protect(protectionOf(plan.filter));
  await context.sync();
  // Nobody asked for it just now, so what it has to do without is not told.
  await writeExtras(context, worksheet, plan, { notes: hasNotes, charts: false }, () =>
    protection.unprotect(),
  );
}
