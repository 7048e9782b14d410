import type { CellArea } from './host';
import { isCode } from './trouble';

/**
 * What the program itself says a cell is computed from, or undefined where it cannot say: from ExcelApi 1.12 on.
 * It joins arguments that lie beside each other into one area.
 */
export async function precedents(
  context: Excel.RequestContext,
  sheet: string,
  cell: string,
): Promise<CellArea[] | undefined> {
  if (!Office.context.requirements.isSetSupported('ExcelApi', '1.12')) return undefined;
  const found = context.workbook.worksheets.getItem(sheet).getRange(cell).getDirectPrecedents();
  found.load('addresses');
  try {
    await context.sync();
  } catch (reason) {
    // That is how it says that there are none.
    if (isCode(reason, 'ItemNotFound')) return [];
    throw reason;
  }
  return found.addresses.flatMap(areasOf);
}

/** `'Run 1'!B2:D4,'Run 1'!F2` → its areas. A comma may stand in a sheet's name. */
export function areasOf(addresses: string): CellArea[] {
  const area = /(?:'((?:[^']|'')*)'|([^'!,\s][^'!,]*))!([$A-Z0-9:]+)/g;
  return [...addresses.matchAll(area)].map(([, quoted, bare = '', address = '']) => ({
    sheet: quoted === undefined ? bare : quoted.replace(/''/g, "'"),
    address: address.replace(/\$/g, ''),
  }));
}
