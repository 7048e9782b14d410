import type { ErrorKind } from '../../sheets/book';

/** A formula taken apart, as far as our sheets use formulas. Addresses are without `$`. */
export type Node =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'boolean'; readonly value: boolean }
  | { readonly kind: 'error'; readonly value: ErrorKind }
  | { readonly kind: 'range'; readonly address: string; readonly sheet?: string }
  | { readonly kind: 'name'; readonly name: string; readonly sheet?: string }
  | Call
  | { readonly kind: 'unary'; readonly op: '-' | '+'; readonly of: Node }
  | { readonly kind: 'percent'; readonly of: Node }
  | { readonly kind: 'binary'; readonly op: Operator; readonly left: Node; readonly right: Node };

export interface Call {
  readonly kind: 'call';
  /** In capitals: `IF`, `LIGHT.OUTPUT`. */
  readonly name: string;
  /** Undefined is an argument left out, as in `F(1,,2)`. */
  readonly args: readonly (Node | undefined)[];
}

export type Operator = '^' | '*' | '/' | '+' | '-' | '&' | '=' | '<>' | '<' | '<=' | '>' | '>=';

/** Every node of a formula, outermost first. */
export function* nodesOf(node: Node): Generator<Node> {
  yield node;
  if (node.kind === 'call') for (const arg of node.args) if (arg) yield* nodesOf(arg);
  if (node.kind === 'unary' || node.kind === 'percent') yield* nodesOf(node.of);
  if (node.kind === 'binary') {
    yield* nodesOf(node.left);
    yield* nodesOf(node.right);
  }
}

/** A formula with other nodes in the place of some that have no parts: references, numbers, texts. */
export function renewed(node: Node, leaf: (node: Node) => Node): Node {
  switch (node.kind) {
    case 'call':
      return { ...node, args: node.args.map((arg) => arg && renewed(arg, leaf)) };
    case 'unary':
    case 'percent':
      return { ...node, of: renewed(node.of, leaf) };
    case 'binary':
      return { ...node, left: renewed(node.left, leaf), right: renewed(node.right, leaf) };
    default:
      return leaf(node);
  }
}
