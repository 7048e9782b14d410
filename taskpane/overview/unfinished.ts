import { partsOf, textNames, textOf } from '../../src/audit/seal/constant';
import type { Host } from '../../src/excel/host';
import type { DefinedName } from '../../src/sheets/book';
import { UNFINISHED } from '../../src/sheets/overview/unfinished';
import type { Row } from './rows';

/** Writes down on an overview what it lists, before it is written anew. */
export async function begin(host: Host, sheet: string, rows: readonly Row[]): Promise<void> {
  await host.editNames([{ sheet, remove: [], set: textNames(UNFINISHED, JSON.stringify(rows)) }]);
}

/** What was written down, when it was begun and not ended; undefined where nothing was. */
export async function leftBehind(host: Host, sheet: string): Promise<readonly Row[] | undefined> {
  const names = await namesOf(host, sheet);
  const text = textOf(UNFINISHED, names);
  if (text === undefined) return undefined;
  try {
    const rows: unknown = JSON.parse(text);
    return Array.isArray(rows) ? rows.filter(isRow) : [];
  } catch {
    // Somebody has altered it: what the sheet lists by itself is all there is.
    return [];
  }
}

/** Takes it away: the sheet lists it again. */
export async function end(host: Host, sheet: string): Promise<void> {
  const remove = partsOf(UNFINISHED, await namesOf(host, sheet));
  if (remove.length > 0) await host.editNames([{ sheet, remove, set: [] }]);
}

async function namesOf(host: Host, sheet: string): Promise<readonly DefinedName[]> {
  return (await host.book({ sheets: [sheet] })).sheets[0]?.names ?? [];
}

function isRow(row: unknown): row is Row {
  if (typeof row !== 'object' || row === null) return false;
  const { sheet, kind, id } = row as Partial<Row>;
  return [sheet, kind, id].every((each) => typeof each === 'string');
}
