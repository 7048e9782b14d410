import {
  LOG_COLUMNS,
  LOG_LETTERS,
  LOG_VERSION,
  type LogLine,
  logHeight,
  logPlan,
  logTexts,
} from '../sheets/log';
import { IDENTITY, parseIdentity } from '../sheets/plan';
import { freeName } from '../sheets/realize';
import { textCell } from '../sheets/report';
import { styleOf } from '../sheets/style';
import { cellInput } from './cellinput';
import { HostError } from './host';
import { writeStyle } from './looks';
import { PROTECTION, writeContents, writeMark } from './write';

/**
 * Adds lines below the last one of the workbook's log, and makes the log where there is none. Where the last line
 * stands is found by the program itself in the very batch that writes, so that a line somebody else added a moment
 * before is never written over. The sheet in front stays in front.
 */
export async function appendLog(
  context: Excel.RequestContext,
  lines: readonly LogLine[],
  newId: string,
): Promise<void> {
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  const marks = worksheets.items.map((sheet) => {
    const mark = sheet.names.getItemOrNullObject(IDENTITY);
    mark.load('formula');
    sheet.protection.load('protected');
    return { sheet, mark };
  });
  await context.sync();
  const logs = marks.flatMap(({ sheet, mark }) => {
    const identity = mark.isNullObject ? undefined : parseIdentity(String(mark.formula));
    return identity?.kind === 'log' ? [{ sheet, version: identity.version }] : [];
  });
  const known = logs.find(({ version }) => version <= LOG_VERSION);
  if (!known && logs.length > 0) {
    throw new HostError(
      'refused',
      'The log of this workbook was made by a newer version of this add-in.',
      'Update the add-in. Until then nothing is added to the log.',
    );
  }
  const taken = worksheets.items.map(({ name }) => name);
  const log = known?.sheet ?? addLog(worksheets, taken, newId);
  // A log made just now is protected already.
  if (!known || known.sheet.protection.protected) log.protection.unprotect();
  const below = log.getRange(LOG_LETTERS).getUsedRange(true).getLastRow().getCell(0, 0).getOffsetRange(1, 0);
  writeLines(below.getAbsoluteResizedRange(lines.length, LOG_COLUMNS.length), lines.map(logTexts));
  log.pageLayout.setPrintArea(log.getRange(LOG_LETTERS).getUsedRange(true));
  log.protection.protect(PROTECTION);
  await context.sync();
}

function addLog(
  worksheets: Excel.WorksheetCollection,
  taken: readonly string[],
  newId: string,
): Excel.Worksheet {
  const plan = logPlan(newId);
  const title = freeName(plan.title, taken);
  const sheet = worksheets.add(title);
  writeMark(sheet, plan);
  writeContents(sheet, title, plan, { notes: false, charts: false });
  return sheet;
}

function writeLines(range: Excel.Range, rows: readonly (readonly string[])[]): void {
  const cells = rows.map((row) => row.map((text) => textCell(text, 'line')));
  writeStyle(range.format, styleOf({ role: 'line' }));
  range.numberFormat = cells.map((row) => row.map(({ format = 'General' }) => format));
  range.values = rows.map((row) => row.map((text) => cellInput(text)));
  rows.forEach((row, i) => {
    range.getRow(i).format.rowHeight = logHeight(row);
  });
}
