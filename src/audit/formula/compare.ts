import type { CellError, CellValue } from '../../sheets/book';
import { isError } from './value';

type Kind = 'number' | 'string' | 'boolean';
const RANK: Readonly<Record<Kind, number>> = { number: 0, string: 1, boolean: 2 };

/** Order of two cell values as a spreadsheet has it: numbers before texts before truths, texts without case. */
export function order(a: CellValue, b: CellValue): number | CellError {
  if (isError(a)) return a;
  if (isError(b)) return b;
  const [left, right] = [filled(a, b), filled(b, a)];
  const ranks = RANK[typeof left as Kind] - RANK[typeof right as Kind];
  if (ranks !== 0) return ranks;
  if (typeof left === 'string') {
    const [x, y] = [left.toLowerCase(), String(right).toLowerCase()];
    return x < y ? -1 : x > y ? 1 : 0;
  }
  return Number(left) - Number(right);
}

/** An empty cell compares as the empty value of the other's kind. */
function filled(value: Exclude<CellValue, CellError>, other: CellValue): number | string | boolean {
  if (value !== null) return value;
  return typeof other === 'string' ? '' : typeof other === 'boolean' ? false : 0;
}

/** Whether a cell meets a COUNTIF criterion such as `">0"`, `"o*"`, `"over"` or 5. */
export function meets(cell: CellValue, criterion: CellValue): boolean {
  if (isError(cell) || isError(criterion) || criterion === null) return false;
  const [, op = '', text = ''] = /^(<=|>=|<>|<|>|=)?([\s\S]*)$/.exec(String(criterion)) ?? [];
  const number = text.trim() === '' ? Number.NaN : Number(text);
  if (Number.isNaN(number)) {
    const isSame = typeof cell === 'string' && pattern(text).test(cell);
    return op === '<>' ? !isSame : isSame;
  }
  // A text that reads as the number is found with it, and is neither above nor below one.
  if (op === '' || op === '=')
    return (typeof cell === 'string' && cell.trim() !== '' ? Number(cell) : cell) === number;
  if (typeof cell !== 'number') return op === '<>';
  switch (op) {
    case '<':
      return cell < number;
    case '<=':
      return cell <= number;
    case '>':
      return cell > number;
    case '>=':
      return cell >= number;
    default:
      return cell !== number;
  }
}

/** `o*` → /^o[\s\S]*$/i; `*` stands for any text and `?` for one character. Runs of stars are one star. */
function pattern(wild: string): RegExp {
  const source = wild
    .slice(0, 255)
    .replace(/\*+/g, '*')
    .replace(/[\\^$.|+()[\]{}]/g, '\\$&')
    .replace(/\*/g, '[\\s\\S]*')
    .replace(/\?/g, '[\\s\\S]');
  return new RegExp(`^${source}$`, 'i');
}
