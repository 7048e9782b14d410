import { HostError, type NameEdits } from './host';
import { type Opened, protectAgain } from './protect';

/**
 * Two round trips: which names are there, then everything; a third where names are hidden. A protected sheet is opened for as long as
 * its names change, since programs differ in whether protection covers them. A name stays visible that is hidden in
 * the batch it was added in (office-js issue 3878).
 */
export async function editNames(
  context: Excel.RequestContext,
  edits: readonly NameEdits[],
  opened: Opened,
): Promise<void> {
  const { workbook } = context;
  const places = edits.map((edit) => {
    const worksheet = edit.sheet === undefined ? undefined : workbook.worksheets.getItem(edit.sheet);
    worksheet?.protection.load('protected,options');
    const names = (worksheet ?? workbook).names;
    const keys = new Set([...edit.remove, ...edit.set.map(({ name }) => name)]);
    const present = [...keys].map((key) => names.getItemOrNullObject(key));
    for (const item of present) item.load('name,scope');
    const expected = (edit.expects ?? []).map(({ name, refersTo }) => ({
      item: names.getItemOrNullObject(name),
      refersTo,
    }));
    for (const { item } of expected) item.load('formula,scope');
    return { edit, worksheet, names, present, expected };
  });
  await context.sync();
  for (const { worksheet, expected } of places) {
    const scope = worksheet ? 'Worksheet' : 'Workbook';
    const isOther = expected.some(({ item, refersTo }) => {
      const isThere = !item.isNullObject && item.scope === scope;
      return isThere ? String(item.formula) !== refersTo : refersTo !== undefined;
    });
    if (isOther) throw otherFirst();
  }
  for (const { edit, worksheet, present } of places) {
    if (worksheet) opened.open(edit.sheet!, worksheet);
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

function otherFirst(): HostError {
  return new HostError(
    'busy',
    'Somebody else wrote to the same names of this workbook a moment before.',
    'Nothing was written. Try again.',
    'names changed',
  );
}
