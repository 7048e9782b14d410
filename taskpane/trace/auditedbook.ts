import { sheetsBehind } from '../../src/audit/behind';
import { expectedOf } from '../../src/audit/expected';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import type { Book } from '../../src/sheets/book';

/**
 * Some sheets with the input rules where their layout has any, and those that their figures come from, without rules.
 * The sheets asked for come first.
 */
export async function auditedBook(host: Host, sheets: readonly string[]): Promise<Book> {
  return askedBook(host, await askingFor(host, sheets));
}

/** What has to be asked for to judge some sheets. It stays the same as long as their layout and their links do. */
export interface Asking {
  readonly sheets: readonly string[];
  readonly linked: readonly string[];
  /** Ranges of the input rules, by sheet. */
  readonly validations: Readonly<Record<string, readonly string[]>>;
}

/**
 * Programs tell the rule of a range but cannot list the rules of a sheet, so the layout is found first, from the names,
 * and its ranges are asked for.
 */
export async function askingFor(host: Host, sheets: readonly string[]): Promise<Asking> {
  const own = await host.book({ sheets });
  const linked = new Set(own.sheets.flatMap((sheet) => sheetsBehind(viewOf(sheet))));
  for (const sheet of sheets) linked.delete(sheet);
  const book = linked.size > 0 ? await host.book({ sheets: [...sheets, ...linked] }) : own;
  const validations = own.sheets.map((sheet): [string, string[]] => {
    const expected = expectedOf(viewOf(sheet), book);
    return [sheet.name, expected.known ? expected.plan.validations.map(({ range }) => range) : []];
  });
  return { sheets, linked: [...linked], validations: Object.fromEntries(validations) };
}

/** The sheets as they stand now, where what to ask for is known. */
export async function askedBook(host: Host, { sheets, linked, validations }: Asking): Promise<Book> {
  const whole = await host.book({ sheets: [...sheets, ...linked], validations, isSeen: true });
  const isAsked = ({ name }: Book['sheets'][number]) => sheets.includes(name);
  return {
    ...whole,
    sheets: [...whole.sheets.filter(isAsked), ...whole.sheets.filter((sheet) => !isAsked(sheet))],
  };
}
