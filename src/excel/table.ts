import { addressOf, cellName, type Rect, rectOf } from '../sheets/address';
import { tableRect } from '../sheets/longtable';
import { moveFormula } from '../sheets/move';
import type { Plan, PlanCell } from '../sheets/plan';
import { cellInput } from './cellinput';

/**
 * A long table of a plan, in parts that each fit one message. The rows repeat each other, so their formulas are
 * written once and copied down by the host: 5000 rows cost hardly more to send than one.
 */
export interface TableParts {
  /** Number formats, column by column. */
  readonly formats: readonly { readonly range: string; readonly format: string }[];
  /** What is typed into cells, in parts of at most `PART_MAX` characters. */
  readonly values: readonly Part[];
  /** Those that go out together: what all rows have alike, then what is of a block, such as its function. */
  readonly formulas: readonly (readonly RowFormulas[])[];
}
/** Formulas of one row, and how far down to copy them; `to` is left out where there is nothing to copy. */
interface RowFormulas {
  readonly from: string;
  readonly formulas: readonly string[];
  readonly to?: string;
}
type Input = string | number | boolean | null;
interface Part {
  readonly range: string;
  /** One value for all cells, or one a cell. */
  readonly values: Input | Input[][];
}

/**
 * Characters of values in one message. Excel on the web refuses messages of 5 MB (resource limits of Office
 * Add-ins); a letter can take three bytes, and the rest of the message a few more.
 */
export const PART_MAX = 1_000_000;

/** Takes the table of a plan apart, which stands there in blocks. */
export function tableParts(plan: Plan, fills: readonly string[]): TableParts {
  const blocks = fills.map(rectOf);
  const rect = tableRect(fills)!;
  const { row: first, column: left, rows, columns } = rect;
  const cell = (row: number, column: number): PlanCell | undefined => plan.cells[cellName(row, column)];
  const columnRange = (column: number, from = first, count = rows) =>
    addressOf({ row: from, column, rows: count, columns: 1 });
  const indexes = Array.from({ length: columns }, (_, i) => left + i);
  const hasFormula = (column: number) => cell(first, column)?.formula !== undefined;
  const isCopied = (column: number, { row, rows: count }: Rect) =>
    count > 1 && cell(row + 1, column)?.formula !== undefined;
  /** Whether every block begins as the first one would go on. */
  const isAlike = (column: number) =>
    blocks.every(
      ({ row }) =>
        cell(row, column)?.formula === moveFormula(cell(first, column)!.formula!, row - first, 0) &&
        (row === first || isCopied(column, rect)),
    );
  const rowOf = (block: Rect, isOf: (column: number) => boolean): RowFormulas[] =>
    runs(indexes, (column) =>
      hasFormula(column) && isOf(column) ? (isCopied(column, block) ? 'all' : 'first') : '',
    ).flatMap(({ from, to, key }) => {
      if (key === '') return [];
      const own = { row: block.row, column: from, rows: 1, columns: to - from + 1 };
      return [
        {
          from: addressOf(own),
          formulas: Array.from({ length: own.columns }, (_, i) => cell(block.row, from + i)!.formula!),
          ...(key === 'all' ? { to: addressOf({ ...own, row: block.row + 1, rows: block.rows - 1 }) } : {}),
        },
      ];
    });
  const alike = new Set(indexes.filter((column) => hasFormula(column) && isAlike(column)));
  const ofBlocks = blocks.flatMap((block) => rowOf(block, (column) => !alike.has(column)));

  return {
    formats: runs(indexes, (column) => cell(first, column)?.format ?? 'General').map(({ from, to, key }) => ({
      range: addressOf({ row: first, column: from, rows, columns: to - from + 1 }),
      format: key,
    })),
    values: indexes
      .filter((column) => !hasFormula(column))
      .flatMap((column): Part[] => {
        const values = Array.from({ length: rows }, (_, r) => cell(first + r, column)?.value);
        if (values.every((value) => value === undefined)) return [];
        const inputs = values.map((value): Input => cellInput(value ?? '') as Input);
        if (inputs.every((input) => input === inputs[0]))
          return [{ range: columnRange(column), values: inputs[0]! }];
        return parts(inputs).map(([from, part]) => ({
          range: columnRange(column, first + from, part.length),
          values: part.map((input) => [input]),
        }));
      }),
    formulas: [
      ...rowOf(rect, (column) => alike.has(column)).map((one) => [one]),
      ...(ofBlocks.length > 0 ? [ofBlocks] : []),
    ],
  };
}

/** Neighbouring columns with one key. */
function runs(
  indexes: readonly number[],
  keyOf: (column: number) => string,
): { from: number; to: number; key: string }[] {
  const found: { from: number; to: number; key: string }[] = [];
  for (const column of indexes) {
    const key = keyOf(column);
    const last = found.at(-1);
    if (last?.key === key) last.to = column;
    else found.push({ from: column, to: column, key });
  }
  return found;
}

/** Values in parts that are not too long, each with the place of its first. */
function parts(values: readonly Input[]): [number, Input[]][] {
  const found: [number, Input[]][] = [];
  let size = PART_MAX;
  values.forEach((value, i) => {
    const own = String(value).length + 5;
    if (size + own > PART_MAX) {
      found.push([i, []]);
      size = 0;
    }
    found.at(-1)![1].push(value);
    size += own;
  });
  return found;
}
