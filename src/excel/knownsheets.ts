import { SEAL } from '../audit/seal/names';
import { IDENTITY, parseIdentity } from '../sheets/plan';
import type { KnownSheet, Survey } from './host';

/** What a sheet's hidden names tell of it. */
interface Mark {
  readonly identity: string | undefined;
  readonly isSealed: boolean;
}

/** Our sheets in tab order. The sheets' names must be loaded. */
export async function knownSheets(
  context: Excel.RequestContext,
  worksheets: readonly Excel.Worksheet[],
): Promise<KnownSheet[]> {
  const marks = worksheets.map((sheet) => ({ sheet: sheet.name, mark: askMark(sheet) }));
  await context.sync();
  return marks.flatMap(({ sheet, mark }) => knownBy(sheet, mark()));
}

/** Asks for a sheet's mark; answered after the next sync. */
function askMark(sheet: Excel.Worksheet): () => Mark {
  const mark = sheet.names.getItemOrNullObject(IDENTITY);
  const seal = sheet.names.getItemOrNullObject(SEAL);
  mark.load('formula,scope');
  seal.load('scope');
  return () => ({ identity: isOwn(mark) ? String(mark.formula) : undefined, isSealed: isOwn(seal) });
}

function knownBy(sheet: string, mark: Mark): KnownSheet[] {
  const identity = mark.identity === undefined ? undefined : parseIdentity(mark.identity);
  return identity ? [{ sheet, ...identity, ...(mark.isSealed ? { isSealed: true as const } : {}) }] : [];
}

/** A sheet's list of names also finds those of the workbook. */
function isOwn(name: Excel.NamedItem): boolean {
  return !name.isNullObject && name.scope === 'Worksheet';
}

interface Kept {
  readonly sheets: readonly KnownSheet[];
  /** Every sheet of the workbook in tab order, by the program's own id. */
  readonly all: ReadonlyMap<string, { readonly name: string; readonly mark: Mark }>;
}

/**
 * The sheets there are, asked for once: with two hundred of them the answer is long, and it is asked for at every
 * change. It is asked for anew when a sheet was added, deleted, renamed or moved, when there are more or fewer, when the
 * one in front has another name, and when one that came to the front has other marks: names have no events.
 */
export class KeptSurvey {
  #kept: Kept | undefined;
  /** How often something was forgotten: what was asked for before that is not kept. */
  #forgotten = 0;
  /** While nobody hears of changes nothing is kept. */
  isFollowed = false;
  /** Whether a sheet came to the front since the last look. */
  hasOtherFront = true;

  /** Something of the sheets or their marks may have changed. */
  forget(): void {
    this.#kept = undefined;
    this.#forgotten++;
  }
  /** The name of a sheet by the program's id. */
  nameOf(id: string): string | undefined {
    return this.#kept?.all.get(id)?.name;
  }

  /** One round trip where it is kept, two where it is not. */
  async ask(context: Excel.RequestContext): Promise<Survey> {
    const { worksheets } = context.workbook;
    const active = worksheets.getActiveWorksheet();
    active.load('id,name');
    const isOtherFront = this.hasOtherFront;
    this.hasOtherFront = false;
    const kept = this.isFollowed ? this.#kept : undefined;
    if (kept) {
      const count = worksheets.getCount();
      const mark = isOtherFront ? askMark(active) : undefined;
      await context.sync();
      const before = kept.all.get(active.id);
      const isSame = count.value === kept.all.size && before?.name === active.name;
      if (isSame && (!mark || isSameMark(before.mark, mark())))
        return { active: active.name, sheets: kept.sheets };
    }
    const forgotten = this.#forgotten;
    worksheets.load('items/id,items/name');
    await context.sync();
    const marks = worksheets.items.map((sheet) => ({ sheet, mark: askMark(sheet) }));
    await context.sync();
    const all = new Map(marks.map(({ sheet, mark }) => [sheet.id, { name: sheet.name, mark: mark() }]));
    const sheets = [...all.values()].flatMap(({ name, mark }) => knownBy(name, mark));
    this.#kept = forgotten === this.#forgotten ? { sheets, all } : undefined;
    return { active: active.name, sheets };
  }
}

function isSameMark(a: Mark, b: Mark): boolean {
  return a.identity === b.identity && a.isSealed === b.isSealed;
}
