import { sheetsBehind } from '../../src/audit/behind';
import { expectedOf } from '../../src/audit/expected';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import type { Book } from '../../src/sheets/book';

/**
 * Some sheets with the input rules where their layout has any: programs tell the rule of a range but cannot list
 * the rules of a sheet, so the layout is found first, from the names, and its ranges are asked for. The sheets
 * asked for come first; those that their figures come from follow, without rules.
 */
export async function auditedBook(host: Host, sheets: readonly string[]): Promise<Book> {
  const own = await host.book({ sheets });
  const linked = new Set(own.sheets.flatMap((sheet) => sheetsBehind(viewOf(sheet))));
  for (const sheet of sheets) linked.delete(sheet);
  const all = [...sheets, ...linked];
  const book = linked.size > 0 ? await host.book({ sheets: all }) : own;
  const validations = own.sheets.map((sheet): [string, string[]] => {
    const expected = expectedOf(viewOf(sheet), book);
    return [sheet.name, expected.known ? expected.plan.validations.map(({ range }) => range) : []];
  });
  const whole = await host.book({
    sheets: all,
    validations: Object.fromEntries(validations),
    isSeen: true,
  });
  const isAsked = ({ name }: Book['sheets'][number]) => sheets.includes(name);
  return {
    ...whole,
    sheets: [...whole.sheets.filter(isAsked), ...whole.sheets.filter((sheet) => !isAsked(sheet))],
  };
}
