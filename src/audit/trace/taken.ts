import { type Node, nodesOf, type Operator } from '../formula/ast';
import { evaluate, type Scope } from '../formula/evaluate';
import { isError } from '../formula/value';

/** The part of a formula that yields its value, and what was decided on the way. */
export interface Taken {
  readonly node: Node;
  readonly because: readonly Node[];
}

/**
 * Follows every IF to the branch that counts. A condition that only asks whether all is there is passed over:
 * its other branch is a text that says what is missing. Others are reasons, a false one turned round.
 */
export function taken(node: Node, scope: Scope): Taken {
  const because: Node[] = [];
  const part = follow(node, scope, because);
  return { node: part, because: because.filter((reason) => !goesWithoutSaying(reason, because)) };
}

/** That a choice is none of the others, where the one it is stands beside it. */
function goesWithoutSaying(reason: Node, because: readonly Node[]): boolean {
  const chosen = choiceOf(reason, '<>');
  return chosen !== undefined && because.some((other) => choiceOf(other, '=') === chosen);
}

/** The name compared with a text, if a condition is such a comparison. */
function choiceOf(node: Node, op: '=' | '<>'): string | undefined {
  if (node.kind !== 'binary' || node.op !== op || node.right.kind !== 'text') return undefined;
  return node.left.kind === 'name' ? node.left.name.toLowerCase() : undefined;
}

function follow(node: Node, scope: Scope, because: Node[]): Node {
  switch (node.kind) {
    case 'call': {
      const [first, second, third] = node.args;
      if (node.name === 'IF' && first && second) {
        const truth = evaluate(first, scope);
        if (typeof truth !== 'boolean' && typeof truth !== 'number') return node;
        const isTrue = Boolean(truth);
        const [branch, other] = isTrue ? [second, third] : [third, second];
        if (!branch) return node;
        const result = follow(branch, scope, because);
        if (!isWaiting(other) || isVerdict(first, result)) addReason(first, isTrue, because);
        return result;
      }
      if (node.name === 'IFERROR' && first && second) {
        return follow(isError(evaluate(first, scope)) ? second : first, scope, because);
      }
      return { ...node, args: node.args.map((arg) => arg && follow(arg, scope, because)) };
    }
    case 'unary':
    case 'percent':
      return { ...node, of: follow(node.of, scope, because) };
    case 'binary':
      return {
        ...node,
        left: follow(node.left, scope, because),
        right: follow(node.right, scope, because),
      };
    default:
      return node;
  }
}

/** What a cell says while something is missing: a text, or "7 of 9". */
function isWaiting(node: Node | undefined): boolean {
  return node?.kind === 'text' || (node?.kind === 'binary' && node.op === '&');
}

/** Between two texts the condition is all there is to say, unless it only counts. */
function isVerdict(condition: Node, result: Node): boolean {
  if (result.kind !== 'text') return false;
  return ![...nodesOf(condition)].some((part) => part.kind === 'call' && /^COUNT/.test(part.name));
}

const OPPOSITE: Readonly<Partial<Record<Operator, Operator>>> = {
  '=': '<>',
  '<>': '=',
  '<': '>=',
  '<=': '>',
  '>': '<=',
  '>=': '<',
};

function addReason(condition: Node, isTrue: boolean, because: Node[]): void {
  if (isTrue) {
    because.unshift(condition);
    return;
  }
  const opposite = condition.kind === 'binary' ? OPPOSITE[condition.op] : undefined;
  if (condition.kind === 'binary' && opposite) because.unshift({ ...condition, op: opposite });
  else because.unshift({ kind: 'call', name: 'NOT', args: [condition] });
}
