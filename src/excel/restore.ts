import { cellInput } from './cellinput';
import type { Restoration, RestoredCell } from './host';
import { type Opened, protectAgain, protectionOf } from './protect';
import { writeValidation } from './write';

/** Opens the sheet, puts back what is asked, and protects it. */
export async function restore(
  context: Excel.RequestContext,
  sheet: string,
  { cells = [], validations = [], filter }: Restoration,
  opened: Opened,
): Promise<void> {
  const worksheet = context.workbook.worksheets.getItem(sheet);
  const { protection } = worksheet;
  protection.load('protected,options');
  await context.sync();
  opened.open(sheet, worksheet);
  for (const cell of cells) restoreCell(worksheet.getRange(cell.at), cell);
  for (const validation of validations) writeValidation(worksheet.getRange(validation.range), validation);
  if (filter) protection.protect(protectionOf(filter));
  else protectAgain(protection);
  await context.sync();
}

/** The format comes first: a formula written into a cell for text would stay text. */
function restoreCell(range: Excel.Range, { formula, value, format, isLocked }: RestoredCell): void {
  if (format !== undefined) range.numberFormat = [[format]];
  if (formula !== undefined) range.formulas = [[formula]];
  else if (value !== undefined) range.values = [[cellInput(value) ?? '']];
  if (isLocked !== undefined) range.format.protection.locked = isLocked;
}
