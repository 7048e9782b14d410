import { cellsOf, rectOf, SHEET_COLUMNS } from '../../sheets/address';
import type { Book, BookCell, CellValue, DefinedName, Validation } from '../../sheets/book';
import { IDENTITY } from '../../sheets/plan';
import { ruleKey } from '../check/rules';
import { normalFormat } from '../format';
import { normal } from '../formula/normal';
import { isError } from '../formula/value';
import { once } from '../once';
import { AREA_MAX, ownAddress, type SheetView, sheetOf } from '../view';
import type { Entry, Group } from './entry';
import { SEAL_NAMES } from './names';
import type { Head } from './record';
import { historyEntry, isAbsolute, lookOf, seenEntries } from './seen';

/** Significant digits of typed numbers (what every program keeps) and of results (what programs agree in). */
const TYPED_DIGITS = 15;
const RESULT_DIGITS = 8;
/** Results smaller than this are rests of a subtraction and are sealed as 0. */
const RESULT_ZERO = 1e-10;
/** How far a result may lie beside a rounding boundary and still be taken for the one on the other side. */
const BOUNDARY = 5e-9;
const RULE_CELLS = AREA_MAX;

/**
 * Everything of a sheet that a seal covers, in a fixed order; FORMAT.md describes it. Other sheets of ours go by their
 * id and not by their name. The first form knows neither the sheet's name nor its place, and nothing of looks.
 */
export function entriesOf(view: SheetView, book: Book, head: Head): Entry[] {
  const { sheet } = view;
  const isSeen = head.format >= 2;
  const called = (name: string) => {
    const id = sheetOf(book, name)?.identity?.id;
    return id === undefined ? name : `#${id}`;
  };
  const spelt = (formula: string) => normal(formula, sheet.name, called);
  const cells = readingOrder(Object.keys(sheet.cells));
  const spilled = spilledInto(view);
  return [
    ...cells.flatMap((at) => cellEntry(at, sheet.cells[at]!, spelt, spilled.has(at), isSeen)),
    ...cells.flatMap((at) => resultEntry(at, sheet.cells[at]!, spilled.has(at))),
    ...nameEntries(view, spelt, isSeen),
    ...ruleEntries(view, isSeen),
    entry('sheet', 'protection', sheet.isProtected ? 'protected' : 'open'),
    ...(isSeen ? [...seenEntries(view, book, spelt), ...historyEntry(view, head)] : []).map(([key, text]) =>
      entry('sheet', key, text),
    ),
  ];
}

/** The canonical form: a heading, then one line an entry. */
export function canonicalText(
  { format, kind, version, id }: Pick<Head, 'format' | 'kind' | 'version' | 'id'>,
  texts: readonly string[],
): string {
  return [`light-seal ${format}`, `${kind} ${version} ${id}`, ...texts].join('\n');
}

function entry(group: Group, key: string, text: string, alternatives: readonly string[] = []): Entry {
  const line = (words: string) => `${group} ${key} ${words}`;
  return { group, key, text: line(text), alternatives: alternatives.map(line) };
}

function cellEntry(
  at: string,
  { value, formula, style }: BookCell,
  spelt: (formula: string) => string,
  isSpilled: boolean,
  isSeen: boolean,
): Entry[] {
  // What fills it is a result; its format and its lock are its own.
  const contents = formula !== undefined ? spelt(formula) : isSpilled ? '' : typed(value);
  if (contents === undefined) return [];
  const lock = style?.locked === false ? 'open' : 'locked';
  // Parts of a typed text may have looks of their own, which not every program tells.
  const isPlain = formula === undefined && !isSpilled && typeof value === 'string';
  const look = isSeen && !isPlain ? `\t${lookOf(style)}` : '';
  return [entry('cell', at, `${contents}\t${normalFormat(style?.format)}\t${lock}${look}`)];
}

function resultEntry(at: string, { value, formula }: BookCell, isSpilled: boolean): Entry[] {
  if (formula === undefined && !isSpilled) return [];
  if (typeof value !== 'number') return [entry('result', at, typed(value) ?? 'empty')];
  const text = rounded(value);
  const others = [rounded(value * (1 + BOUNDARY)), rounded(value * (1 - BOUNDARY))];
  return [
    entry(
      'result',
      at,
      text,
      [...new Set(others)].filter((other) => other !== text),
    ),
  ];
}

function rounded(value: number): string {
  return Math.abs(value) < RESULT_ZERO ? '0' : String(Number(value.toPrecision(RESULT_DIGITS)));
}

/** A value as one line; undefined for an empty cell. Adding 0 turns −0 into 0. */
function typed(value: CellValue): string | undefined {
  if (value === null || value === '') return undefined;
  if (isError(value)) return value.error;
  if (typeof value === 'number') return String(Number(value.toPrecision(TYPED_DIGITS)) + 0);
  return typeof value === 'boolean'
    ? String(value).toUpperCase()
    : JSON.stringify(value.replace(/\r\n?/g, '\n'));
}

function nameEntries({ sheet }: SheetView, spelt: (formula: string) => string, isSeen: boolean): Entry[] {
  const meaning = (defined: DefinedName) => ownAddress(defined, sheet.name) ?? spelt(defined.refersTo);
  const moves = ({ refersTo }: DefinedName) =>
    isSeen && !isAbsolute(refersTo) ? ', moves with the cell' : '';
  return sheet.names
    .filter(({ name }) => name !== IDENTITY && !SEAL_NAMES.test(name))
    .map((defined) => entry('name', defined.name, `${meaning(defined)}${moves(defined)}`))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
}

function ruleEntries({ sheet }: SheetView, isSeen: boolean): Entry[] {
  const found = new Map<string, string>();
  for (const validation of sheet.validations) {
    const { range, rule, refusal } = validation;
    const { rows, columns } = rectOf(range);
    if (rows * columns > RULE_CELLS) continue;
    const cells = cellsOf(range);
    const texts = isSeen ? `\t${ruleTexts(validation)}` : '';
    for (const at of cells) found.set(at, `${ruleKey(rule, cells[0]!)}\t${refusal.style}${texts}`);
  }
  return readingOrder([...found.keys()]).map((at) => entry('rule', at, found.get(at)!));
}

/** What a person is told at a cell and when an entry is refused. */
function ruleTexts({ prompt, refusal }: Validation): string {
  const texts = [prompt.title, prompt.message, refusal.title, refusal.message];
  return JSON.stringify(texts.map((text) => text.replace(/\r\n?/g, '\n')));
}

/** Cells that an array result of another cell fills. */
function spilledInto({ sheet }: SheetView): Set<string> {
  return new Set(
    Object.entries(sheet.cells).flatMap(([at, { spill }]) =>
      spill ? cellsOf(spill).filter((cell) => cell !== at) : [],
    ),
  );
}

/** Cells row by row, from left to right. */
function readingOrder(cells: readonly string[]): string[] {
  return cells
    .map((at) => ({ at, place: placeOf(at) }))
    .sort((a, b) => a.place - b.place)
    .map(({ at }) => at);
}

/** Where a cell comes in reading order. */
export const placeOf = once((at) => {
  const { row, column } = rectOf(at);
  return row * SHEET_COLUMNS + column;
});
