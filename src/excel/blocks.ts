import { cellInput } from './cellinput';
import { type CellBlock, type Course, HostError } from './host';
import { type Opened, protectAgain } from './protect';
import { PART_MAX } from './table';

/**
 * Writes rectangles of cells, in messages that the host takes. If a name is missing, nothing is written; when it is
 * stopped, what was written stays.
 */
export async function writeBlocks(
  context: Excel.RequestContext,
  sheet: string,
  blocks: readonly CellBlock[],
  { progress, signal }: Course,
): Promise<void> {
  const { names } = context.workbook.worksheets.getItem(sheet);
  const named = (name: string) => names.getItem(name).getRange();
  for (const name of new Set(blocks.map(({ name }) => name))) named(name).load('address');
  await context.sync();
  let size = 0;
  for (const [i, { name, row, column, values }] of blocks.entries()) {
    const [rows, columns] = [values.length, values[0]?.length ?? 0];
    if (rows === 0 || columns === 0) continue;
    const cells = values.map((line) => line.map(cellInput));
    const own = JSON.stringify(cells).length;
    if (size > 0 && size + own > PART_MAX) {
      await context.sync();
      progress?.(i / blocks.length);
      if (signal?.aborted) {
        throw new HostError(
          'stopped',
          'Writing was stopped.',
          `${i} of ${blocks.length} parts were written.`,
        );
      }
      size = 0;
    }
    named(name)
      .getCell(row, column)
      .getResizedRange(rows - 1, columns - 1).values = cells;
    size += own;
  }
  await context.sync();
  progress?.(1);
}

/**
 * Three round trips. Formulas down the first column of each name are put in as they read; anything else is left alone.
 * Programs may tell the formula of a table's first cell for every cell that it fills, so one that reads as the one
 * above it is none.
 */
export async function enterAgain(
  context: Excel.RequestContext,
  sheet: string,
  names: readonly string[],
  opened: Opened,
): Promise<{ formulas: number }> {
  const worksheet = context.workbook.worksheets.getItem(sheet);
  worksheet.protection.load('protected,options');
  const items = names.map((name) => worksheet.names.getItemOrNullObject(name));
  for (const item of items) item.load('scope');
  await context.sync();
  const columns = items
    .filter((item) => !item.isNullObject && item.scope === 'Worksheet')
    .map((item) => ({ item, cells: item.getRange().getColumn(0) }));
  for (const { cells } of columns) cells.load('formulas');
  await context.sync();
  const own = columns.flatMap(({ item, cells }) => {
    const formulas = cells.formulas.map(([formula]) => String(formula));
    return formulas.flatMap((formula, row) =>
      formula.startsWith('=') && formula !== formulas[row - 1] ? [{ item, row, formula }] : [],
    );
  });
  const isProtected = worksheet.protection.protected;
  opened.open(sheet, worksheet);
  for (const { item, row, formula } of own) item.getRange().getCell(row, 0).formulas = [[formula]];
  if (isProtected) protectAgain(worksheet.protection);
  await context.sync();
  return { formulas: own.length };
}
