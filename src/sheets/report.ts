import { columnName } from './address';
import { PlanBuilder } from './builder';
import type { Plan, PlanCell, SheetKind } from './plan';

/** When a report was made, by whom and by which version of the program. */
export interface Moment {
  /** ISO time, UTC: `2026-11-25T09:30:00Z`. */
  readonly when: string;
  readonly who: string;
  readonly program: string;
}

interface ReportColumn {
  readonly label: string;
  /** In characters. */
  readonly width: number;
}

export interface Report {
  readonly kind: SheetKind;
  readonly version: number;
  /** Sheet name to ask for. */
  readonly title: string;
  readonly heading: string;
  readonly columns: readonly ReportColumn[];
  /** What was looked at, as label and text. */
  readonly facts: readonly (readonly [label: string, text: string])[];
  readonly moment: Moment;
  /** What the lines are called in messages about their number. */
  readonly things: string;
  readonly rows: readonly (readonly (string | number)[])[];
}

/** More lines than a person reads; further ones are counted, not listed. */
const ROWS_MAX = 2000;
/** Points of a line of text, and the most that a row can be high (Excel's limit is 409). */
const LINE = 13;
const HEIGHT_MAX = 400;
/** Excel shows longer texts in cells for text as ####; no program takes a text that long for a number or a date. */
const TEXT_FORMAT_MAX = 255;

const STANDS = 'A report of one moment: nothing here follows the workbook. After a change make a new one.';

/** A table of texts under a head that says what it is a report of. It holds no formula and takes no entry. */
export function reportPlan(report: Report, id: string): Plan {
  const { kind, version, title, heading, columns, facts, moment, things, rows } = report;
  const b = new PlanBuilder();
  const last = columnName(columns.length - 1);
  const width = columns.reduce((sum, column) => sum + column.width, 0);
  b.wide(`A1:${last}1`, { role: 'title', value: heading }).height(1, 26);
  b.wide(`A2:${last}2`, { role: 'caution', value: STANDS }).height(2, 20);
  const shown = rows.slice(0, ROWS_MAX);
  const more = rows.length - shown.length;
  const lines: readonly (readonly [string, string, string?])[] = [
    ['Made on', timeWords(moment.when), 'MadeOn'],
    ['Made by', moment.who || '(not stated)', 'MadeBy'],
    ['Program', `Light Output Workbook ${moment.program}`, 'MadeWith'],
    ...facts,
    ...(more > 0 ? [['Not listed', `${more} further ${things}`] as const] : []),
  ];
  lines.forEach(([label, text, name], i) => {
    const row = 4 + i;
    b.put(`A${row}`, { role: 'label', value: label });
    b.wide(`B${row}:${last}${row}`, textCell(text, 'line'));
    b.height(row, heightOf([[text, width - columns[0]!.width]]));
    if (name) b.name(name, `B${row}`, label);
  });
  const head = 5 + lines.length;
  putTable(b, head, columns, shown);
  if (shown.length > 0) {
    b.name('ReportLines', `A${head + 1}:${last}${head + shown.length}`, `The ${things}, one a line`);
  }
  return b.build({
    kind,
    version,
    id,
    title,
    columns: Object.fromEntries(columns.map((column, i) => [columnName(i), column.width])),
    print: { orientation: 'landscape' },
    start: `A${head}`,
  });
}

function putTable(
  b: PlanBuilder,
  head: number,
  columns: readonly ReportColumn[],
  rows: readonly (readonly (string | number)[])[],
): void {
  columns.forEach(({ label }, i) => {
    b.put(`${columnName(i)}${head}`, { role: 'heading', value: label });
  });
  rows.forEach((row, r) => {
    row.forEach((value, i) => {
      const at = `${columnName(i)}${head + 1 + r}`;
      b.put(at, typeof value === 'number' ? { role: 'line', value } : textCell(value, 'line'));
    });
    b.height(head + 1 + r, heightOf(row.map((value, i) => [String(value), columns[i]!.width])));
  });
}

/** A cell for text that came from somewhere: it is never taken for a formula, a number or a date. */
export function textCell(text: string, role: PlanCell['role']): PlanCell {
  return {
    role,
    ...(text.length > TEXT_FORMAT_MAX ? {} : { format: '@' }),
    ...(text === '' ? {} : { value: text }),
  };
}

/** Height of a row whose texts wrap within so many characters. */
export function heightOf(cells: readonly (readonly [text: string, width: number])[]): number {
  const lines = cells.map(([text, width]) =>
    text.split('\n').reduce((sum, line) => sum + linesIn(line, width), 0),
  );
  return Math.min(HEIGHT_MAX, LINE * Math.max(1, ...lines) + 3);
}

/** Words go to the next line whole, so a line is not quite full; a long word is cut. */
function linesIn(text: string, width: number): number {
  const FULL = 0.9;
  return Math.max(1, Math.ceil(text.length / Math.max(1, width * FULL)));
}

/** `2026-11-25T09:30:00Z` → `2026-11-25 09:30:00 UTC`. */
export function timeWords(when: string): string {
  return when.replace('T', ' ').replace(/(?:\.\d+)?Z$/, ' UTC');
}
