import type { Outcome, Problem } from '../photometry/outcome';
import { type Result, withinBounds } from './bounds';
import type { Param } from './params';

export type { Result };

/** A custom function as a record: everything about it that Excel, the help and the page of functions show, and the formula. */
export interface FunctionRecord {
  /** Permanent: it is stored in users' workbooks. Shown as LIGHT.<id>. */
  readonly id: string;
  readonly summary: string;
  readonly params: readonly (Param<unknown> & { readonly name: string })[];
  readonly result: ResultKind;
  /** The formula in words and symbols, as the help shows it. */
  readonly formula: string;
  /** Where the definition comes from; "common practice" or "from memory" where that is what it is. */
  readonly source: string;
  readonly example: string;
  /** Checks the raw arguments in order and computes. Never throws, gives only what a cell can hold (`bounds.ts`). */
  evaluate(raw: readonly unknown[]): Outcome<Result>;
}

interface ResultKind {
  readonly kind: 'number' | 'text' | 'number or text' | 'table';
  readonly unit: string;
}

type Values<P> = { [K in keyof P]: P[K] extends Param<infer T> ? T : never };

export interface Definition<P extends Record<string, Param<unknown>>> {
  readonly id: string;
  readonly summary: string;
  /** In the order of the arguments; the key is the argument's name. */
  readonly params: P;
  readonly result: ResultKind;
  readonly formula: string;
  readonly source: string;
  readonly example: string;
  readonly compute: (args: Values<P>) => Outcome<Result>;
}

/** Ties a typed definition to a record with one way in. */
export function define<P extends Record<string, Param<unknown>>>(definition: Definition<P>): FunctionRecord {
  const { compute, params, ...rest } = definition;
  const entries = Object.entries(params);
  const names = entries.map(([name]) => name);
  const checks = Object.values(params);
  const words = names.map(wordsOf);
  return {
    ...rest,
    params: entries.map(([name, param]) => ({ ...param, name })),
    evaluate: withinBounds((raw) => {
      // A plain loop: this runs in every cell, and its problems must all come at once.
      const args: Record<string, unknown> = {};
      const problems: Problem[] = [];
      for (let i = 0; i < names.length; i++) {
        const parsed = checks[i]!.parse(raw[i], words[i]!);
        if (parsed.ok) args[names[i]!] = parsed.value;
        // One by one: a column may have more faults than a call takes arguments.
        else for (const problem of parsed.problems) problems.push(problem);
      }
      return problems.length > 0 ? { ok: false, problems } : compute(args as Values<P>);
    }),
  };
}

/** `redFactor` → "red factor": argument names as a person reads them in a message. */
export function wordsOf(name: string): string {
  return name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}
