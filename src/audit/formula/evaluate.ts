import { FUNCTIONS, NAMESPACE } from '../../functions/table';
import { errorKind } from '../../functions/wrap';
import { explain } from '../../photometry/outcome';
import { rectOf } from '../../sheets/address';
import type { CellValue } from '../../sheets/book';
import type { Call, Node, Operator } from './ast';
import { order } from './compare';
import { FUNCTIONS_PLAIN } from './functions';
import { failed, isError, isGrid, single, toNumber, toText, toTruth, type Value } from './value';

/** Where a formula finds what it refers to. Undefined: there is no such cell or name, or it is elsewhere. */
export interface Scope {
  range(address: string, sheet?: string): Value | undefined;
  name(name: string, sheet?: string): Value | undefined;
  /** Address of what a name stands for; left out where nobody asks for places of cells. */
  address?(name: string, sheet?: string): string | undefined;
}

/** The formula asks for something we do not compute. It does not leave this file. */
class Unknown extends Error {}

/**
 * What a formula yields over given cells, custom functions included; undefined if it uses anything that our
 * sheets do not, or refers outside them: then we cannot say, which is not the same as an error in a cell.
 */
export function evaluate(node: Node, scope: Scope): CellValue | undefined {
  const whole = evaluateWhole(node, scope);
  return whole === undefined ? undefined : single(whole);
}

/** The same, of a formula that fills a table the whole table. */
export function evaluateWhole(node: Node, scope: Scope): Value | undefined {
  try {
    return compute(node, scope);
  } catch (error) {
    if (error instanceof Unknown) return undefined;
    throw error;
  }
}

/** Whether a formula is one call of a function of ours that fills a table from its cell on. */
export function isTableFormula(formula: string): boolean {
  const id = TABLE_CALL.exec(formula)?.[1]?.toUpperCase();
  return id !== undefined && FUNCTIONS.find((record) => record.id === id)?.result.kind === 'table';
}

const TABLE_CALL = new RegExp(`^=${NAMESPACE}\\.([A-Z0-9]+)\\(.*\\)$`, 'i');

function compute(node: Node, scope: Scope): Value {
  switch (node.kind) {
    case 'number':
    case 'text':
    case 'boolean':
      return node.value;
    case 'error':
      return failed(node.value);
    case 'range':
      return known(scope.range(node.address, node.sheet));
    case 'name':
      return known(scope.name(node.name, node.sheet));
    case 'percent':
      return arithmetic(single(compute(node.of, scope)), 100, (x) => x / 100);
    case 'unary':
      return arithmetic(single(compute(node.of, scope)), 0, (x) => (node.op === '-' ? -x : x));
    case 'binary':
      return each(compute(node.left, scope), compute(node.right, scope), (a, b) => binary(node.op, a, b));
    case 'call':
      return call(node, scope);
  }
}

function known(value: Value | undefined): Value {
  if (value === undefined) throw new Unknown();
  return value;
}

/** An operator over grids works cell by cell, one cell with all of the other, as inside SUMPRODUCT. */
function each(a: Value, b: Value, f: (x: CellValue, y: CellValue) => CellValue): Value {
  const [left, right] = [gridOrCell(a), gridOrCell(b)];
  if (!isGrid(left)) {
    return isGrid(right) ? right.map((row) => row.map((cell) => f(left, cell))) : f(left, right);
  }
  if (!isGrid(right)) return left.map((row) => row.map((cell) => f(cell, right)));
  const isSameSize = left.length === right.length && left[0]!.length === right[0]!.length;
  if (!isSameSize) return failed('#VALUE!');
  return left.map((row, r) => row.map((cell, c) => f(cell, right[r]![c]!)));
}

function gridOrCell(value: Value): Value {
  return isGrid(value) && value.length === 1 && value[0]!.length === 1 ? value[0]![0]! : value;
}

function arithmetic(a: CellValue, b: CellValue, f: (x: number, y: number) => number): CellValue {
  const [x, y] = [toNumber(a), toNumber(b)];
  if (isError(x)) return x;
  if (isError(y)) return y;
  const z = f(x, y);
  return Number.isFinite(z) ? z : failed('#NUM!');
}

function binary(op: Operator, a: CellValue, b: CellValue): CellValue {
  switch (op) {
    case '+':
      return arithmetic(a, b, (x, y) => x + y);
    case '-':
      return arithmetic(a, b, (x, y) => x - y);
    case '*':
      return arithmetic(a, b, (x, y) => x * y);
    case '/':
      return toNumber(b) === 0 && !isError(toNumber(a))
        ? failed('#DIV/0!')
        : arithmetic(a, b, (x, y) => x / y);
    case '^':
      return arithmetic(a, b, (x, y) => x ** y);
    case '&': {
      const [x, y] = [toText(a), toText(b)];
      return isError(x) ? x : isError(y) ? y : x + y;
    }
    default: {
      const sign = order(a, b);
      return isError(sign) ? sign : holds(op, sign);
    }
  }
}

function holds(op: Operator, sign: number): boolean {
  switch (op) {
    case '=':
      return sign === 0;
    case '<>':
      return sign !== 0;
    case '<':
      return sign < 0;
    case '<=':
      return sign <= 0;
    case '>':
      return sign > 0;
    default:
      return sign >= 0;
  }
}

function call({ name, args }: Call, scope: Scope): Value {
  const value = (at: number): Value => {
    const arg = args[at];
    return arg ? compute(arg, scope) : null;
  };
  if (name === 'IF') {
    const truth = toTruth(single(value(0)));
    if (isError(truth)) return truth;
    if (!truth && args.length < 3) return false;
    return value(truth ? 1 : 2);
  }
  if (name === 'IFERROR') {
    const first = single(value(0));
    return isError(first) ? value(1) : first;
  }
  if (name === 'ROW') return rowsOf(args[0], scope);
  if (name.startsWith(`${NAMESPACE}.`))
    return custom(
      name,
      args.map((_, at) => value(at)),
    );
  const plain = Object.hasOwn(FUNCTIONS_PLAIN, name) ? FUNCTIONS_PLAIN[name] : undefined;
  if (!plain) throw new Unknown();
  return plain(args.map((_, at) => value(at)));
}

/** Row numbers of an area, which are told by its place and not by its values. */
function rowsOf(area: Node | undefined, scope: Scope): Value {
  const address =
    area?.kind === 'range'
      ? area.address
      : area?.kind === 'name'
        ? scope.address?.(area.name, area.sheet)
        : undefined;
  if (address === undefined) throw new Unknown();
  const { row, rows } = rectOf(address);
  if (rows > ROWS_MAX) throw new Unknown();
  return Array.from({ length: rows }, (_, r) => [row + 1 + r]);
}

const ROWS_MAX = 5_000;

/** A call of ours, with the arguments as Excel hands them over: an empty cell is 0, a cell of one is a scalar or 1 × 1. */
function custom(name: string, args: readonly Value[]): Value {
  const record = FUNCTIONS.find(({ id }) => `${NAMESPACE}.${id}` === name);
  if (!record) throw new Unknown();
  const raw = args.map((arg, at) => {
    const cell = (value: CellValue) => (isError(value) ? { code: value.error } : (value ?? 0));
    if (!isGrid(arg)) return arg === null ? null : cell(arg);
    const rows = arg.map((row) => row.map(cell));
    return record.params[at]?.isMatrix ? rows : cell(single(arg));
  });
  const outcome = record.evaluate(raw);
  if (!outcome.ok) return failed(errorKind(outcome.problems), explain(outcome.problems));
  return outcome.value;
}
