import type { ErrorKind } from '../../sheets/book';
import { withoutIntersection } from '../../sheets/intersection';
import { type Token, tokens } from '../../sheets/tokens';
import type { Node, Operator } from './ast';

/** Deeper than any formula of ours, far from the end of the stack. */
const DEPTH = 80;
/** Excel's limit for a formula, in characters. */
const LENGTH = 8192;

/** Binds tighter the higher. A power binds from the left, and a sign tighter than it: `-2^2` is 4 in a spreadsheet. */
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
  '^': 5,
};

/** What stops the parser: syntax that our sheets do not use. It does not leave this file. */
class NotOurs extends Error {}

/**
 * Takes a formula apart. Undefined for anything that is not a whole formula of the kind our sheets hold: array
 * constants, whole rows and columns, references into other files, unions, formulas too long or too deep.
 */
export function parse(formula: string): Node | undefined {
  if (!formula.startsWith('=') || formula.length > LENGTH) return undefined;
  try {
    return new Parser(formula).whole();
  } catch (error) {
    if (error instanceof NotOurs) return undefined;
    throw error;
  }
}

class Parser {
  private readonly list: readonly Token[];
  private at = 0;
  private depth = 0;

  constructor(formula: string) {
    this.list = withoutIntersection(tokens(formula.slice(1)).filter(({ kind }) => kind !== 'space'));
  }

  whole(): Node {
    const node = this.expression(0);
    if (this.at < this.list.length) throw new NotOurs();
    return node;
  }

  private expression(power: number): Node {
    if (++this.depth > DEPTH) throw new NotOurs();
    let left = this.postfix(this.prefix());
    for (let op = this.operator(); op && POWER[op] > power; op = this.operator()) {
      this.at += op.length;
      left = { kind: 'binary', op, left, right: this.expression(POWER[op]) };
    }
    this.depth--;
    return left;
  }

  /** The operator that stands here; two-character ones are two tokens. */
  private operator(): Operator | undefined {
    const [first, second] = [this.text(), this.text(1)];
    const both = `${first}${second}`;
    if (both === '<=' || both === '>=' || both === '<>') return both;
    return first !== undefined && Object.hasOwn(POWER, first) ? (first as Operator) : undefined;
  }

  private prefix(): Node {
    const sign = this.text();
    if (sign !== '-' && sign !== '+') return this.operand();
    this.at++;
    if (++this.depth > DEPTH) throw new NotOurs();
    const of = this.postfix(this.prefix());
    this.depth--;
    return { kind: 'unary', op: sign, of };
  }

  private postfix(node: Node): Node {
    let whole = node;
    while (this.text() === '%') {
      this.at++;
      whole = { kind: 'percent', of: whole };
    }
    return whole;
  }

  private operand(): Node {
    const token = this.list[this.at];
    if (!token) throw new NotOurs();
    const { kind, text } = token;
    if (text === '(') {
      this.at++;
      const inside = this.expression(0);
      this.expect(')');
      return inside;
    }
    if (kind === 'call') return this.call(text);
    if (this.text(1) === '!' && (kind === 'word' || text.startsWith("'"))) {
      this.at += 2;
      return this.reference(kind === 'word' ? text : text.slice(1, -1).replace(/''/g, "'"));
    }
    if (kind === 'cell' || kind === 'word') return this.reference();
    if (kind !== 'text') throw new NotOurs();
    this.at++;
    if (text.startsWith('"')) return { kind: 'text', value: text.slice(1, -1).replace(/""/g, '"') };
    if (text.startsWith('#')) return { kind: 'error', value: text as ErrorKind };
    const value = Number(text);
    if (Number.isNaN(value)) throw new NotOurs();
    return { kind: 'number', value };
  }

  private reference(sheet?: string): Node {
    const { kind, text } = this.list[this.at] ?? { kind: 'other', text: '' };
    const where = sheet === undefined ? {} : { sheet };
    this.at++;
    if (kind === 'word') {
      const isTruth = /^(true|false)$/i.test(text) && sheet === undefined;
      return isTruth
        ? { kind: 'boolean', value: text.toLowerCase() === 'true' }
        : { kind: 'name', name: text, ...where };
    }
    if (kind !== 'cell') throw new NotOurs();
    let address = plain(text);
    if (this.text() === ':' && this.list[this.at + 1]?.kind === 'cell') {
      const end = plain(this.text(1)!);
      // A block of one cell is the cell.
      if (end !== address) address = `${address}:${end}`;
      this.at += 2;
    }
    return { kind: 'range', address, ...where };
  }

  private call(name: string): Node {
    this.at += 2;
    const args: (Node | undefined)[] = [];
    if (this.text() === ')') this.at++;
    else {
      for (;;) {
        args.push(this.text() === ',' || this.text() === ')' ? undefined : this.expression(0));
        const end = this.text();
        this.at++;
        if (end === ')') break;
        if (end !== ',') throw new NotOurs();
      }
    }
    const isTruth = /^(true|false)$/i.test(name) && args.length === 0;
    return isTruth
      ? { kind: 'boolean', value: name.toLowerCase() === 'true' }
      : { kind: 'call', name: name.toUpperCase(), args };
  }

  private text(ahead = 0): string | undefined {
    return this.list[this.at + ahead]?.text;
  }

  private expect(text: string): void {
    if (this.text() !== text) throw new NotOurs();
    this.at++;
  }
}

function plain(address: string): string {
  return address.replace(/\$/g, '').toUpperCase();
}
