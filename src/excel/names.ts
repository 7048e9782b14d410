import type { NameEdits } from './host';
import { protectAgain } from './protect';

/**
 * Two round trips: which names are there, then everything; a third where names are hidden. A protected sheet is opened for as long as
 * its names change, since programs differ in whether protection covers them. A name stays visible that is hidden in
 * the batch it was added in (office-js issue 3878).
 */
export async function editNames(context: Excel.RequestContext, edits: readonly NameEdits[]): Promise<void> {
  const { workbook } = context;
  const places = edits.map((edit) => {
    const worksheet = edit.sheet === undefined ? undefined : workbook.worksheets.getItem(edit.sheet);
    worksheet?.protection.load('protected,options');
    const names = (worksheet ?? workbook).names;
    const keys = new Set([...edit.remove, ...edit.set.map(({ name }) => name)]);
    const present = [...keys].map((key) => names.getItemOrNullObject(key));
    for (const item of present) item.load('name,scope');
    return { edit, worksheet, names, present };
  });
  await context.sync();
  for (const { worksheet, present } of places) {
    if (worksheet?.protection.protected) worksheet.protection.unprotect();
    const scope = worksheet ? 'Worksheet' : 'Workbook';
    // A sheet's list of names also finds those of the workbook.
    for (const item of present) if (!item.isNullObject && item.scope === scope) item.delete();
  }
  let hides = false;
  for (const { edit, names } of places) {
    for (const { name, refersTo, comment, hidden } of edit.set) {
      names.add(name, refersTo, comment ?? '');
      hides ||= hidden === true;
    }
  }
  if (hides) await context.sync();
  for (const { edit, worksheet, names } of places) {
    for (const { name, hidden } of edit.set) if (hidden) names.getItem(name).visible = false;
    if (worksheet?.protection.protected) protectAgain(worksheet.protection);
  }
  await context.sync();
}
