import { cellName, columnName, rectOf } from './address';
import type { BookCell, BookSheet } from './book';
import { PlanBuilder } from './builder';
import { IDENTITY, type Plan, parseIdentity } from './plan';
import { heightOf, type Moment, textCell, timeWords } from './report';
import { styleOf } from './style';

export const LOG_VERSION = 1;

/** What the tool did. Words once used stay: they stand in users' workbooks. */
export type LogDeed =
  | 'built'
  | 'imported'
  | 'captured'
  | 'pasted'
  | 'took over'
  | 'checked'
  | 'repaired'
  | 'refreshed'
  | 'sealed'
  | 'signed'
  | 'reopened'
  | 'renewed'
  | 'exported';

/** One line of the log. */
export interface LogLine extends Moment {
  readonly what: LogDeed;
  /** Sheet it was about; empty for the workbook. */
  readonly sheet: string;
  readonly detail: string;
}

export const LOG_COLUMNS = [
  { label: 'When', width: 27 },
  { label: 'Who', width: 22 },
  { label: 'What', width: 11 },
  { label: 'Sheet', width: 28 },
  { label: 'Details', width: 64 },
  { label: 'Program', width: 10 },
] as const;
/** The columns lines are added to, `A:F`. */
export const LOG_LETTERS = `A:${columnName(LOG_COLUMNS.length - 1)}`;
/** Row of the headings, counted from 1; lines begin below it. */
const HEAD = 4;

const NOTE =
  'What the Light Output Workbook did here. Lines are only ever added, each below the last, and never changed. ' +
  'The sheet is protected without a password: against slips, not against somebody who wants to change it. “Who” is what was typed in the pane.';

/** An empty log. Lines are added by whoever writes it, always below the last one. */
export function logPlan(id: string): Plan {
  const b = new PlanBuilder();
  const last = columnName(LOG_COLUMNS.length - 1);
  b.wide(`A1:${last}1`, { role: 'title', value: 'Log' }).height(1, 26);
  b.wide(`A2:${last}2`, { role: 'note', value: NOTE }).height(2, 30);
  LOG_COLUMNS.forEach(({ label }, i) => {
    b.put(`${columnName(i)}${HEAD}`, { role: 'heading', value: label });
  });
  b.name('LogHead', `A${HEAD}:${last}${HEAD}`, 'Headings of the log; its lines stand below');
  return b.build({
    kind: 'log',
    version: LOG_VERSION,
    id,
    title: 'Log',
    columns: Object.fromEntries(LOG_COLUMNS.map(({ width }, i) => [columnName(i), width])),
    print: { orientation: 'landscape' },
    start: `A${HEAD}`,
    freeze: { rows: HEAD, columns: 0 },
  });
}

/** A line as the texts of its cells. */
export function logTexts({ when, who, what, sheet, detail, program }: LogLine): string[] {
  return [timeWords(when), who || '(not stated)', what, sheet, detail, program];
}

/** Height of a line's row, in points. */
export function logHeight(texts: readonly string[]): number {
  return heightOf(texts.map((text, i) => [text, LOG_COLUMNS[i]!.width]));
}

/** A log with lines added below its last one. */
export function withLines(sheet: BookSheet, lines: readonly LogLine[]): BookSheet {
  const first = Math.max(HEAD, lastRow(sheet)) + 1;
  const cells: Record<string, BookCell> = { ...sheet.cells };
  const rows: Record<string, number> = { ...sheet.rows };
  lines.forEach((line, i) => {
    const texts = logTexts(line);
    rows[String(first + i)] = logHeight(texts);
    texts.forEach((text, column) => {
      const { role, value = null, format } = textCell(text, 'line');
      cells[cellName(first + i - 1, column)] = { value, style: styleOf({ role, format }) };
    });
  });
  const last = `${columnName(LOG_COLUMNS.length - 1)}${first + lines.length - 1}`;
  return { ...sheet, cells, rows, ...(sheet.print ? { print: { ...sheet.print, area: `A1:${last}` } } : {}) };
}

/** The lines of a log, oldest first, as they stand. */
export function readLog(sheet: BookSheet): string[][] {
  const text = (row: number, column: number) => {
    const name = cellName(row, column);
    const value = Object.hasOwn(sheet.cells, name) ? sheet.cells[name]!.value : null;
    return value === null ? '' : typeof value === 'object' ? value.error : String(value);
  };
  const found: string[][] = [];
  for (let row = HEAD; row < lastRow(sheet); row++)
    found.push(LOG_COLUMNS.map((_, column) => text(row, column)));
  return found;
}

/** Whether a sheet is a log that this program can add to. */
export function isLog({ names }: BookSheet): boolean {
  const mark = names.find(({ name }) => name === IDENTITY);
  const identity = mark && parseIdentity(mark.refersTo);
  return identity?.kind === 'log' && identity.version <= LOG_VERSION;
}

/** Number of the last row that holds anything, counted from 1. */
function lastRow({ cells }: BookSheet): number {
  let last = 0;
  for (const [at, { value, formula }] of Object.entries(cells)) {
    if (value === null && formula === undefined) continue;
    last = Math.max(last, rectOf(at).row + 1);
  }
  return last;
}
