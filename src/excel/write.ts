import { addressOf, columnIndex, columnName, rectOf, refersTo } from '../sheets/address';
import type { Alert, ColourScale, Validation } from '../sheets/book';
import { tableRect } from '../sheets/longtable';
import { columnPoints } from '../sheets/paper';
import { IDENTITY, identityFormula, type Plan } from '../sheets/plan';
import { BUILT_BY } from '../sheets/program';
import { writeContents as writeCells } from './contents';
import { writeLooks } from './looks';
import { writeMerges } from './merges';
import { Ranges } from './ranges';
import { PART_MAX, type TableParts, tableParts } from './table';

/**
 * Writes into an empty sheet that bears its mark what is planned, but for the protection and what a sheet does well
 * without (`writeExtras`). The caller sends what is queued; where a long table
 * is too much for one message, `send` is called after each part, with how much of it is out then, from 0 to 1.
 *
 * @param title the sheet's name, in which its names are spelt
 */
export async function writePlan(
  sheet: Excel.Worksheet,
  title: string,
  plan: Plan,
  send: (done: number) => Promise<void>,
): Promise<void> {
  const ranges = new Ranges(sheet);
  const parts = beginContents(ranges, title, plan);
  for (const [i, write] of parts.entries()) {
    write();
    await send((i + 1) / (parts.length + 1));
  }
  finishContents(parts.length === 0 ? ranges : new Ranges(sheet), plan);
}

/** The mark that tells what a sheet is; `hideMark` follows in a message of its own. */
export function writeMark(sheet: Excel.Worksheet, plan: Plan): void {
  sheet.names.add(IDENTITY, identityFormula(plan), BUILT_BY);
}

/** A name stays visible that is hidden in the batch it was added in (office-js issue 3878). */
export function hideMark(sheet: Excel.Worksheet): void {
  sheet.names.getItem(IDENTITY).visible = false;
}

/**
 * Everything but the mark, the protection and what a sheet does well without (`writeExtras`), all queued for one
 * message: for sheets without a long table.
 */
export function writeContents(sheet: Excel.Worksheet, title: string, plan: Plan): void {
  const ranges = new Ranges(sheet);
  for (const write of beginContents(ranges, title, plan)) write();
  finishContents(ranges, plan);
}

/**
 * Looks, number formats and names; the answer queues the parts of a long table, one a call. Names come before
 * formulas, since a formula with an unknown name would be kept as #NAME?.
 */
function beginContents(ranges: Ranges, title: string, plan: Plan): (() => void)[] {
  const { sheet } = ranges;
  const table = plan.fills && tableParts(plan, plan.fills);
  writeLooks(ranges, plan, areasBeside(plan));
  for (const { range, format } of table?.formats ?? []) setAll(ranges.at(range), 'numberFormat', format);
  // By text: a range would cost as much again as the name.
  for (const { name, range, comment } of plan.names) sheet.names.add(name, refersTo(title, range), comment);
  return table ? tableWrites(sheet, table) : [];
}

function finishContents(ranges: Ranges, plan: Plan): void {
  const { sheet } = ranges;
  writeCells(ranges, plan, areasBeside(plan));
  writeMerges(ranges, plan);
  writeSizes(sheet, plan);
  for (const validation of plan.validations) writeValidation(ranges.at(validation.range), validation);
  for (const scale of plan.scales) writeScale(ranges.at(scale.range), scale);
  for (const alert of plan.alerts) writeAlert(ranges.at(alert.range), alert);
  sheet.showGridlines = false;
  if (plan.filter) sheet.autoFilter.apply(plan.filter.range);
}

/** One value for every cell of a range: a single one says so in a few bytes (reference of Excel.Range.values). */
function setAll(range: Excel.Range, property: 'numberFormat' | 'values', value: unknown): void {
  (range as unknown as Record<string, unknown>)[property] = value;
}

/** Where the cells of a plan beside its long table lie: everywhere, or above it, to the right and below. */
function areasBeside(plan: Plan): string[] {
  const table = tableRect(plan.fills);
  if (!table) return [plan.area ?? plan.print.area];
  const ends = {
    above: { row: -1, column: -1 },
    right: { row: -1, column: -1 },
    below: { row: -1, column: -1 },
  };
  for (const at of Object.keys(plan.cells)) {
    const { row, column } = rectOf(at);
    const isBeyond = column >= table.column + table.columns;
    const side =
      row < table.row ? 'above' : isBeyond ? 'right' : row >= table.row + table.rows ? 'below' : undefined;
    if (!side) continue;
    ends[side].row = Math.max(ends[side].row, row);
    ends[side].column = Math.max(ends[side].column, column);
  }
  const starts = {
    above: { row: 0, column: 0 },
    right: { row: table.row, column: table.column + table.columns },
    below: { row: table.row + table.rows, column: 0 },
  };
  return (['above', 'right', 'below'] as const).flatMap((side) => {
    const [from, to] = [starts[side], ends[side]];
    if (to.row < 0) return [];
    return [addressOf({ ...from, rows: to.row - from.row + 1, columns: to.column - from.column + 1 })];
  });
}

/** The parts of a long table. Values come first: then the formulas are calculated once. */
function tableWrites(sheet: Excel.Worksheet, { values, formulas }: TableParts): (() => void)[] {
  return [
    ...together(values).map((columns) => () => {
      for (const { range, values: part } of columns) {
        if (Array.isArray(part)) sheet.getRange(range).values = part;
        else setAll(sheet.getRange(range), 'values', part);
      }
    }),
    ...formulas.map((together) => () => {
      for (const { from, formulas: row, to } of together) {
        sheet.getRange(from).formulas = [[...row]];
        if (to) sheet.getRange(to).copyFrom(sheet.getRange(from), 'Formulas');
      }
    }),
  ];
}

/** Columns that are short enough go out together. */
function together(values: TableParts['values']): TableParts['values'][number][][] {
  const groups: TableParts['values'][number][][] = [];
  let room = 0;
  for (const one of values) {
    const size = JSON.stringify(one.values).length;
    if (size > room) {
      groups.push([]);
      room = PART_MAX;
    }
    groups.at(-1)!.push(one);
    room -= size;
  }
  return groups;
}

function writeSizes(sheet: Excel.Worksheet, plan: Plan): void {
  const columns = Object.entries(plan.columns).map(([letter, size]) => ({ at: columnIndex(letter), size }));
  for (const { from, to, size } of alike(columns))
    sheet.getRange(`${columnName(from)}:${columnName(to)}`).format.columnWidth = columnPoints(size);
  const rows = Object.entries(plan.rows).map(([row, size]) => ({ at: Number(row), size }));
  for (const { from, to, size } of alike(rows)) sheet.getRange(`${from}:${to}`).format.rowHeight = size;
}

/** Neighbours of one size. */
function alike(sizes: readonly { at: number; size: number }[]): { from: number; to: number; size: number }[] {
  const found: { from: number; to: number; size: number }[] = [];
  for (const { at, size } of [...sizes].sort((a, b) => a.at - b.at)) {
    const last = found.at(-1);
    if (last?.size === size && last.to === at - 1) last.to = at;
    else found.push({ from: at, to: at, size });
  }
  return found;
}

/** Sets an input rule with its words; one that stood there is replaced. */
export function writeValidation(
  range: Excel.Range,
  { rule, prompt, refusal }: Omit<Validation, 'range'>,
): void {
  const validation = range.dataValidation;
  validation.rule = ruleOf(rule);
  validation.prompt = { showPrompt: true, title: prompt.title, message: prompt.message };
  validation.errorAlert = {
    showAlert: true,
    title: refusal.title,
    message: refusal.message,
    style: refusal.style === 'stop' ? 'Stop' : 'Warning',
  };
}

function ruleOf(rule: Validation['rule']): Excel.DataValidationRule {
  switch (rule.type) {
    case 'list':
      return { list: { inCellDropDown: true, source: rule.choices.join(',') } };
    case 'number': {
      const bounds = {
        formula1: rule.min ?? -1e300,
        formula2: rule.max ?? 1e300,
        operator: 'Between' as const,
      };
      return rule.whole ? { wholeNumber: bounds } : { decimal: bounds };
    }
    case 'date':
      return { date: { formula1: rule.min, operator: 'GreaterThanOrEqualTo' } };
    case 'length':
      return { textLength: { formula1: rule.max, operator: 'LessThanOrEqualTo' } };
    case 'formula':
      return { custom: { formula: rule.formula } };
  }
}

function writeScale(range: Excel.Range, { low, middle, high }: ColourScale): void {
  const scale = range.conditionalFormats.add('ColorScale').colorScale;
  scale.criteria = {
    minimum: { type: 'LowestValue', color: low },
    ...(middle ? { midpoint: { type: 'Percentile', formula: '50', color: middle } } : {}),
    maximum: { type: 'HighestValue', color: high },
  };
}

function writeAlert(range: Excel.Range, { begins, fill, color }: Alert): void {
  const alert = range.conditionalFormats.add('ContainsText').textComparison;
  alert.format.fill.color = fill;
  alert.format.font.color = color;
  alert.rule = { operator: 'BeginsWith', text: begins };
}
