/**
 * Results without exceptions. A bad reading is an everyday event in a dark room: it comes back as a value
 * that says where it is, what was expected and what came, and all of them come back at once.
 */
export type Outcome<T> = Good<T> | Bad;
export interface Good<T> {
  readonly ok: true;
  readonly value: T;
}
export interface Bad {
  readonly ok: false;
  readonly problems: readonly Problem[];
}

/** `missing` maps to #N/A in a spreadsheet, everything else to #VALUE!: the two errors that show a text. */
type ProblemKind = 'missing' | 'invalid';

export interface Problem {
  readonly kind: ProblemKind;
  readonly code: ProblemCode;
  /** Which argument, reading or point, in words: "white reading at top left (point 1)". */
  readonly where: string;
  /** A whole sentence, with what was expected and what came. */
  readonly message: string;
}

export type ProblemCode =
  | 'missing'
  | 'over-range'
  | 'not-a-number'
  | 'error-cell'
  | 'negative'
  | 'too-large'
  | 'out-of-bounds'
  | 'shape'
  | 'choice'
  | 'ambient-exceeds'
  | 'impossible-shape'
  | 'not-defined';

export function good<T>(value: T): Good<T> {
  return { ok: true, value };
}

export function bad(...problems: readonly Problem[]): Bad {
  return { ok: false, problems };
}

export function invalid(code: ProblemCode, where: string, message: string): Problem {
  return { kind: 'invalid', code, where, message };
}

export function missing(where: string, message: string): Problem {
  return { kind: 'missing', code: 'missing', where, message };
}

/**
 * Goes on with a good value; a bad one passes through. Not called "then": a module that exports `then` is taken
 * for a promise by `import()`.
 */
export function chain<A, B>(outcome: Outcome<A>, next: (value: A) => Outcome<B>): Outcome<B> {
  return outcome.ok ? next(outcome.value) : outcome;
}

/** All values, or every problem of all of them. */
export function all<T extends readonly unknown[]>(
  outcomes: { readonly [K in keyof T]: Outcome<T[K]> },
): Outcome<T> {
  const values: unknown[] = [];
  const problems: Problem[] = [];
  for (const outcome of outcomes) {
    if (outcome.ok) values.push(outcome.value);
    // One by one: there may be more than a call takes arguments.
    else for (const problem of outcome.problems) problems.push(problem);
  }
  return problems.length > 0 ? { ok: false, problems } : good(values as unknown as T);
}

/** The problems of a bad outcome as one text, in the order found. */
export function explain(problems: readonly Problem[]): string {
  return problems.map((problem) => problem.message).join(' ');
}
