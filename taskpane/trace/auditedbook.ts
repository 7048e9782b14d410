import { expectedOf } from '../../src/audit/expected';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import type { Book } from '../../src/sheets/book';

/**
 * Some sheets with the input rules where their layout has any: programs tell the rule of a range but cannot list
 * the rules of a sheet, so the layout is found first, from the names, and its ranges are asked for.
 */
export async function auditedBook(host: Host, sheets: readonly string[]): Promise<Book> {
  const book = await host.book({ sheets });
  const validations = book.sheets.map((sheet): [string, string[]] => {
    const expected = expectedOf(viewOf(sheet));
    return [sheet.name, expected.known ? expected.plan.validations.map(({ range }) => range) : []];
  });
  return host.book({ sheets, validations: Object.fromEntries(validations) });
}
