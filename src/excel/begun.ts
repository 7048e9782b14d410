import { IDENTITY, type Plan, parseIdentity } from '../sheets/plan';
import { HostError } from './host';
import { toHostError } from './trouble';
import { writeMark } from './write';

/**
 * A sheet that a build has begun: what may be taken away again should the build fail, and nothing else. Colleagues
 * build in the same workbook, so a tab's name says nothing about whose sheet it is: a name that was free at our
 * look can be a colleague's sheet with readings by the time of our write.
 */
export interface Begun {
  readonly plan: Plan;
  readonly name: string;
  /** The program's own ids of all sheets that stood there before. */
  readonly before: ReadonlySet<string>;
  /** The program's own id of the new sheet; undefined while no answer has told it. */
  id?: string;
}

/** One round trip: adds the sheet with its mark and learns its id, before anything is written that could fail. */
export async function begin(context: Excel.RequestContext, begun: Begun): Promise<Excel.Worksheet> {
  const sheet = context.workbook.worksheets.add(begun.name);
  writeMark(sheet, begun.plan);
  sheet.load('id');
  await context.sync();
  begun.id = sheet.id;
  return sheet;
}

/**
 * Takes a sheet that could not be finished away, so that the workbook is as it was. Only a sheet goes that was not
 * there before and either bears the id that our own batch was told or the mark of this very plan.
 *
 * @throws HostError `refused` if it stays, with its name.
 */
export async function takeAway(context: Excel.RequestContext, begun: Begun): Promise<void> {
  let left: string = begun.name;
  try {
    const { worksheets } = context.workbook;
    worksheets.load('items/id,items/name');
    await context.sync();
    const fresh = worksheets.items.filter(({ id }) => !begun.before.has(id));
    const looks = fresh.map((sheet) => {
      const mark = sheet.names.getItemOrNullObject(IDENTITY);
      const used = sheet.getUsedRangeOrNullObject();
      mark.load('formula');
      used.load('address');
      return { sheet, mark, used };
    });
    await context.sync();
    const isOurs = ({ sheet, mark }: (typeof looks)[number]) =>
      sheet.id === begun.id ||
      (!mark.isNullObject && parseIdentity(String(mark.formula))?.id === begun.plan.id);
    for (const { sheet } of looks.filter(isOurs)) {
      left = sheet.name;
      sheet.delete();
    }
    await context.sync();
    // Added perhaps by us, and its mark failed: an empty sheet could as well be a colleague's that is just begun.
    const unsure = looks.find(
      (look) =>
        begun.id === undefined && !isOurs(look) && look.sheet.name === begun.name && look.used.isNullObject,
    );
    if (!unsure) return;
  } catch (reason) {
    throw staysBehind(left, toHostError(reason).detail);
  }
  throw staysBehind(begun.name);
}

function staysBehind(name: string, detail?: string): HostError {
  return new HostError(
    'refused',
    `The sheet \u201c${name}\u201d was begun, could not be finished and could not be taken away.`,
    'If it is nobody else\u2019s, delete it by its tab; then build again.',
    detail,
  );
}
