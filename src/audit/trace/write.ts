import type { CellValue } from '../../sheets/book';
import type { Node, Operator } from '../formula/ast';
import { isError } from '../formula/value';

/** How leaves of a formula are written: by what they are called, or by what they hold. */
export interface Leaves {
  range(address: string, sheet?: string): string;
  name(name: string, sheet?: string): string;
  /** INDEX(grid, row, column) of a named grid. */
  pick(grid: string, row: number, column: number): string | undefined;
}

const SIGN: Readonly<Record<Operator, string>> = {
  '^': '^',
  '*': ' × ',
  '/': ' ÷ ',
  '+': ' + ',
  '-': ' − ',
  '&': ' & ',
  '=': ' = ',
  '<>': ' ≠ ',
  '<': ' < ',
  '<=': ' ≤ ',
  '>': ' > ',
  '>=': ' ≥ ',
};
const POWER: Readonly<Record<Operator, number>> = {
  '=': 1,
  '<>': 1,
  '<': 1,
  '<=': 1,
  '>': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 6,
};
/** A sign binds tighter than × and looser than a power, the way people read it: −x². */
const UNARY = 5;
/** Binds looser than any operator, but tells a list from its neighbours. */
const IN_LIST = 0.5;

/** Functions in words; the others keep their spreadsheet name. */
const WORDS: Readonly<Record<string, string>> = {
  AVERAGE: 'mean',
  SUM: 'sum',
  SUMPRODUCT: 'sum',
  MIN: 'smallest',
  MAX: 'largest',
  SUMSQ: 'sum of squares',
  DEVSQ: 'sum of squared deviations',
  SQRT: '√',
  INT: 'whole part',
  ROUND: 'rounded',
  ABS: 'size',
  COUNT: 'numbers in',
  COUNTIF: 'how often',
  EXP: 'exp',
  LN: 'ln',
  NOT: 'not',
  ISNUMBER: 'a number in',
  NORMSINV: 'normal quantile',
  NORMSDIST: 'normal probability',
  TINV: 'Student’s t, two-sided,',
  TDIST: 'tail of Student’s t',
};

/** A formula as a line of text: × and ÷ for the operators, words for functions, leaves as told. */
export function write(node: Node, leaves: Leaves): string {
  return part(node, 0, leaves);
}

function part(node: Node, around: number, leaves: Leaves): string {
  switch (node.kind) {
    case 'number':
      return signed(valueText(node.value, 15), around);
    case 'text':
      return `"${node.value}"`;
    case 'boolean':
      return node.value ? 'true' : 'false';
    case 'error':
      return node.value;
    case 'range':
      return signed(leaves.range(node.address, node.sheet), around);
    case 'name':
      return signed(leaves.name(node.name, node.sheet), around);
    case 'percent':
      return `${part(node.of, UNARY, leaves)} %`;
    case 'unary': {
      const text = `${node.op === '-' ? '−' : ''}${part(node.of, UNARY, leaves)}`;
      return around > IN_LIST ? `(${text})` : text;
    }
    case 'binary':
      return binary(node, around, leaves);
    case 'call':
      return call(node.name, node.args, leaves);
  }
}

function binary(node: Extract<Node, { kind: 'binary' }>, around: number, leaves: Leaves): string {
  const { op, left, right } = node;
  // "0 − x" stands for a leading minus.
  if (op === '-' && left.kind === 'number' && left.value === 0) {
    return part({ kind: 'unary', op: '-', of: right }, around, leaves);
  }
  const power = POWER[op];
  // A right operand of the same strength needs brackets: a − (b − c), a ÷ (b × c).
  const text = `${part(left, op === '^' ? power : power - 1, leaves)}${SIGN[op]}${part(right, power, leaves)}`;
  return power <= around ? `(${text})` : text;
}

/** A negative number inside a formula stands in brackets, and so does a list of numbers. */
function signed(text: string, around: number): string {
  if (around > 0 && text.includes('; ')) return `[${text}]`;
  return around > IN_LIST && text.startsWith('−') ? `(${text})` : text;
}

function call(name: string, args: readonly (Node | undefined)[], leaves: Leaves): string {
  if (name === 'PI') return 'π';
  const [first, second, third] = args;
  if (name === 'INDEX' && first?.kind === 'name' && first.sheet === undefined && second?.kind === 'number') {
    const picked = leaves.pick(first.name, second.value, third?.kind === 'number' ? third.value : 1);
    if (picked !== undefined) return picked;
  }
  const reported = reportedIn(name, args);
  if (reported) return [part(reported.of, IN_LIST, leaves), reported.words].filter(Boolean).join(', ');
  // A single list needs no brackets of its own: mean(1; 2; 3).
  const around = args.length > 1 ? IN_LIST : 0;
  const list = args.map((arg) => (arg ? part(arg, around, leaves) : 'nothing')).join('; ');
  return `${WORDS[name] ?? name}(${list})`;
}

/**
 * A figure made into a text as it is reported: what it says is the figure. How its digits are counted, and which sign
 * parts the decimals, is the same everywhere and says nothing.
 */
function reportedIn(
  name: string,
  args: readonly (Node | undefined)[],
): { readonly of: Node; readonly words: string } | undefined {
  const [first, second, third] = args;
  // The program's own decimal sign gives way to a point.
  if (name === 'SUBSTITUTE' && first && third?.kind === 'text' && third.value === '.')
    return (
      (first.kind === 'call' ? reportedIn(first.name, first.args) : undefined) ?? { of: first, words: '' }
    );
  if (name !== 'FIXED' || !first) return undefined;
  if (first.kind === 'call' && first.name === 'ROUND' && first.args[0])
    return { of: first.args[0], words: 'in the digits that its uncertainty leaves' };
  return second?.kind === 'number' ? { of: first, words: `to ${second.value} decimals` } : undefined;
}

/** A value put into a formula, to so many digits: `2466.1`, `−0.003`, `"lx"`. */
export function valueText(value: CellValue, digits: number): string {
  if (value === null || value === '') return '(empty)';
  if (isError(value)) return value.error;
  if (typeof value === 'number') return String(Number(value.toPrecision(digits))).replace(/-/g, '−');
  return typeof value === 'string' ? `"${value}"` : String(value).toUpperCase();
}
