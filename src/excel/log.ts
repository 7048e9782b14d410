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
import { type Begun, begin, takeAway } from './begun';
import { cellInput } from './cellinput';
import { writeExtras } from './extras';
import { HostError } from './host';
import { writeStyle } from './looks';
import { type Opened, PROTECTION } from './protect';
import { isCode, toHostError } from './trouble';
import { hideMark, writeContents } from './write';

/**
 * Adds lines below the last one of the workbook's log, and makes the log where there is none. Where the last line
 * stands is found by the program itself in the very batch that writes, so that a line somebody else added a moment
 * before is never written over. The sheet in front stays in front.
 */
export async function appendLog(
  context: Excel.RequestContext,
  lines: readonly LogLine[],
  newId: string,
  opened: Opened,
  isDoubtful: boolean,
): Promise<void> {
  const { worksheets } = context.workbook;
  worksheets.load('items/id,items/name');
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
  if (!known) {
    await addLog(context, worksheets.items, newId, lines);
    return;
  }
  const log = known.sheet;
  const missing = isDoubtful ? await notYet(context, log, lines) : lines;
  if (missing.length === 0) return;
  opened.open(log.name, log, {});
  writeBelow(log, missing);
  log.protection.protect(PROTECTION);
  await context.sync();
  await printAll(context, log);
}

/** Lines that do not stand yet, after a try of which no answer came. */
async function notYet(
  context: Excel.RequestContext,
  log: Excel.Worksheet,
  lines: readonly LogLine[],
): Promise<readonly LogLine[]> {
  const used = log.getRange(LOG_LETTERS).getUsedRange(true);
  used.load('values');
  log.protection.load('protected');
  await context.sync();
  const standing = used.values.map((row) => JSON.stringify(row.map(String)));
  return lines.filter((line) => {
    const at = standing.indexOf(JSON.stringify(logTexts(line)));
    if (at >= 0) standing.splice(at, 1);
    return at < 0;
  });
}

/** What is printed reaches to the last line; the lines stand whether or not the program takes that. */
async function printAll(context: Excel.RequestContext, log: Excel.Worksheet): Promise<void> {
  try {
    log.pageLayout.setPrintArea(log.getRange(LOG_LETTERS).getUsedRange(true));
    await context.sync();
  } catch (reason) {
    console.warn('The print area of the log was not set', toHostError(reason).detail);
  }
}

/** Adds lines below the last one; the program itself finds where that is. */
function writeBelow(log: Excel.Worksheet, lines: readonly LogLine[]): void {
  const below = log.getRange(LOG_LETTERS).getUsedRange(true).getLastRow().getCell(0, 0).getOffsetRange(1, 0);
  writeLines(below.getAbsoluteResizedRange(lines.length, LOG_COLUMNS.length), lines.map(logTexts));
}

/** The log begins with its first lines, so that it never stands empty. */
async function addLog(
  context: Excel.RequestContext,
  sheets: readonly Excel.Worksheet[],
  newId: string,
  lines: readonly LogLine[],
): Promise<void> {
  const plan = logPlan(newId);
  const name = freeName(
    plan.title,
    sheets.map((one) => one.name),
  );
  const begun: Begun = { plan, name, before: new Set(sheets.map(({ id }) => id)) };
  try {
    const sheet = await begin(context, begun);
    hideMark(sheet);
    writeContents(sheet, name, plan);
    writeBelow(sheet, lines);
    await context.sync();
    await writeExtras(context, sheet, plan, { notes: false, charts: false });
    await printAll(context, sheet);
  } catch (reason) {
    // A name that was taken is refused before anything is added; a lost answer tells no id, but the mark does.
    const isNothingAdded = begun.id === undefined && isCode(reason, 'ItemAlreadyExists');
    if (!isNothingAdded) await takeAway(context, begun);
    throw reason;
  }
}

function writeLines(range: Excel.Range, rows: readonly (readonly string[])[]): void {
  const cells = rows.map((row) => row.map((text) => textCell(text, 'line')));
  const first = range.getCell(0, 0);
  writeStyle(first, styleOf({ role: 'line' }));
  range.copyFrom(first, 'Formats');
  range.numberFormat = cells.map((row) => row.map(({ format = 'General' }) => format));
  range.values = rows.map((row) => row.map((text) => cellInput(text)));
  rows.forEach((row, i) => {
    range.getRow(i).format.rowHeight = logHeight(row);
  });
}
