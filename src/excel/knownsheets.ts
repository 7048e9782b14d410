import { SEAL } from '../audit/seal/names';
import { IDENTITY, parseIdentity } from '../sheets/plan';
import type { KnownSheet } from './host';

/** Our sheets in tab order. The sheets' names must be loaded. */
export async function knownSheets(
  context: Excel.RequestContext,
  worksheets: readonly Excel.Worksheet[],
): Promise<KnownSheet[]> {
  const marks = worksheets.map((sheet) => {
    const mark = sheet.names.getItemOrNullObject(IDENTITY);
    const seal = sheet.names.getItemOrNullObject(SEAL);
    mark.load('formula,scope');
    seal.load('scope');
    return { sheet: sheet.name, mark, seal };
  });
  await context.sync();
  return marks.flatMap(({ sheet, mark, seal }): KnownSheet[] => {
    const identity = isOwn(mark) ? parseIdentity(String(mark.formula)) : undefined;
    return identity ? [{ sheet, ...identity, ...(isOwn(seal) ? { isSealed: true as const } : {}) }] : [];
  });
}

/** A sheet's list of names also finds those of the workbook. */
function isOwn(name: Excel.NamedItem): boolean {
  return !name.isNullObject && name.scope === 'Worksheet';
}
