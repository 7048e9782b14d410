import { type Host, HostError } from '../../../src/excel/host';
import type { Entry } from '../entry';

/** Where an entry belongs now. */
export type Located =
  | { readonly sheet: string }
  /** The sheet is not in this workbook: perhaps in another one, or deleted. */
  | { readonly absent: true }
  /** Copies of one sheet bear the same id, and none has the name it had. */
  | { readonly several: readonly string[] };

/** Finds the sheet of an entry by its id, whatever it is called now. */
export async function locate(host: Host, { run, sheet }: Entry): Promise<Located> {
  const { sheets } = await host.survey();
  const alike = sheets.filter(({ id }) => id === run).map((known) => known.sheet);
  if (alike.includes(sheet)) return { sheet };
  if (alike.length === 0) return { absent: true };
  return alike.length === 1 ? { sheet: alike[0]! } : { several: alike };
}

export function isMissing(error: unknown): boolean {
  return error instanceof HostError && error.trouble === 'missing';
}
