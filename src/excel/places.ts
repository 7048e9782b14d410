import { IDENTITY, parseIdentity } from '../sheets/plan';
import { HostError, type SheetPlace } from './host';
import { isCode } from './trouble';

/**
 * Where sheets are by the program's own ids, which stay with a sheet through every renaming. Two tabs that exchange
 * their names between a look and a write would otherwise exchange their readings.
 */
export class Places {
  readonly #at = new Map<string, string>();

  /**
   * Runs work on the sheet of a place. The first time it takes a round trip more, to see that the tab of that name
   * bears the id.
   *
   * @throws HostError `missing` if no tab of that name bears it
   */
  async on<T>(
    context: Excel.RequestContext,
    place: SheetPlace | string,
    work: (sheet: Excel.Worksheet) => Promise<T>,
  ): Promise<T> {
    if (typeof place === 'string') return work(context.workbook.worksheets.getItem(place));
    const key = `${place.id} ${place.sheet}`;
    const at = this.#at.get(key) ?? (await look(context, place));
    this.#at.set(key, at);
    try {
      return await work(context.workbook.worksheets.getItem(at));
    } catch (reason) {
      // Deleted perhaps, and another one may bear its name and id by now: the next call looks again.
      if (isCode(reason, 'ItemNotFound')) this.#at.delete(key);
      throw reason;
    }
  }
}

async function look(context: Excel.RequestContext, { sheet, id }: SheetPlace): Promise<string> {
  const worksheet = context.workbook.worksheets.getItem(sheet);
  worksheet.load('id');
  const mark = worksheet.names.getItemOrNullObject(IDENTITY);
  mark.load('formula');
  await context.sync();
  const identity = mark.isNullObject ? undefined : parseIdentity(String(mark.formula));
  if (identity?.id === id) return worksheet.id;
  throw new HostError(
    'missing',
    `\u201c${sheet}\u201d is another sheet by now than the one that was meant.`,
    'Was it renamed? Nothing was written. Choose the sheet again.',
  );
}
