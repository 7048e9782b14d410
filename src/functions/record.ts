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

/** What people call an argument where its name is a sign or a short word of ours. */
const WORDS: Readonly<Record<string, string>> = {
  dof: 'number of degrees of freedom',
  expanded: 'expanded uncertainty',
  u: 'standard uncertainty',
  found: 'value found',
  expected: 'value expected',
  repeats: 'repeated reading',
  value: 'measured value',
  lower: 'lower limit',
  upper: 'upper limit',
  known: 'name of the known length',
  count: 'number of points',
  part: 'least part',
  rule: 'decision rule',
  level: 'level of confidence',
  range: 'range factor',
  cornerRange: 'range factor of the corners',
  whiteRange: 'range factor of white',
  blackRange: 'range factor of black',
  redRange: 'range factor of red',
  greenRange: 'range factor of green',
  blueRange: 'range factor of blue',
  falling: 'diagonal from top left',
  rising: 'diagonal from top right',
  top: 'top side',
  right: 'right side',
  bottom: 'bottom side',
  left: 'left side',
  length: 'known length',
  width: 'image width',
  height: 'image height',
  area: 'image area',
  display: 'number on the display',
  digit: 'step of the display',
  resolution: 'step of the display',
  measure: 'measure of uniformity',
  topLeft: 'top left tile',
  side: 'side of the deviation',
  gain: 'screen gain',
  first: 'first reading',
  last: 'last reading',
  rated: 'rated value',
  shared: 'table of what is shared',
  parts: 'table of contributions',
  meters: 'number of the meter',
  images: 'number of the image',
  qualityLimit: 'AQL',
};

/** `redFactor` → "red factor": argument names as a person reads them in a message. */
export function wordsOf(name: string): string {
  return WORDS[name] ?? name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}
