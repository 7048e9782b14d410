import { cellName, rectOf } from '../sheets/address';
import { type Opened, protectAgain } from './protect';
import { askSpills, filledBy, isFormulaOf } from './spills';

/**
 * Enters every formula of a sheet again, in three round trips. Text that begins with "=" and what array results fill
 * are left alone, whatever the program tells of them: a formula entered there would stop the table.
 */
export async function refresh(
  context: Excel.RequestContext,
  sheet: string,
  tellsSpills: boolean,
  opened: Opened,
): Promise<{ formulas: number }> {
  const worksheet = context.workbook.worksheets.getItem(sheet);
  const { protection } = worksheet;
  protection.load('protected,options');
  const used = worksheet.getUsedRange();
  used.load('address,formulas,values');
  await context.sync();
  const spills = askSpills(worksheet, used, tellsSpills);
  await context.sync();
  const filled = filledBy(spills());
  const { row, column } = rectOf(used.address.slice(used.address.lastIndexOf('!') + 1));
  const isOwn = (formula: unknown, r: number, c: number) =>
    isFormulaOf(formula, used.values[r]![c]) && !filled.has(cellName(row + r, column + c));
  const formulas = used.formulas.map((line, r) => line.map((cell, c) => (isOwn(cell, r, c) ? cell : null)));
  opened.open(sheet, worksheet);
  // A range lasts until the next round trip.
  worksheet.getRange(used.address.slice(used.address.lastIndexOf('!') + 1)).formulas = formulas;
  if (protection.protected) protectAgain(protection);
  await context.sync();
  return { formulas: formulas.flat().filter((cell) => cell !== null).length };
}
