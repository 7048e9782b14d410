import { cellName } from '../../sheets/address';
import { isErrorKind } from '../../sheets/book';
import { Arguments, type Scalar } from './arguments';
import { OMITTED_TEXT } from './formulas';
import type { Ground } from './ground';
import { GETTING_DATA, Later, type Place } from './later';
import { Messages } from './messages';
import type { FunctionMetadata, FunctionsJson } from './metadata';
import { sheetPrefix } from './reference';

/** An add-in's function. The last argument is Excel's invocation object. */
export type Implementation = (...args: never[]) => unknown;

/** What the engine sets on the function object while it calls it: the cell being computed. */
interface Caller {
  readonly _row?: number;
  readonly _column?: number;
  readonly _subUnitId?: string;
}

/** Custom functions as Excel calls them, from the same `functions.json` and the same code. */
export class CustomFunctions {
  readonly messages = new Messages();
  /** Those that answer later. */
  readonly later: Later;
  readonly #registered = new Map<string, { dispose(): void }>();

  constructor(
    readonly engine: Pick<Ground, 'api' | 'calculation' | 'sheetById'>,
    recalculate: (places: readonly Place[]) => void,
  ) {
    this.later = new Later(recalculate);
  }

  /**
   * Registers every function of `metadata`. One without an implementation answers `#N/A`, as a function that
   * was never associated does (Office Add-ins documentation, "Troubleshoot custom functions").
   */
  register(
    metadata: FunctionsJson,
    implementations: ReadonlyMap<string, Implementation>,
    namespace: string,
  ): void {
    const { engine, messages } = this;
    const { allowErrorForDataTypeAny } = metadata;
    for (const listed of metadata.functions) {
      // Said for all functions of the list, as Excel documents it.
      const item = { ...(allowErrorForDataTypeAny === true ? { allowErrorForDataTypeAny } : {}), ...listed };
      const name = `${namespace}.${item.name}`.toUpperCase();
      const implementation = implementations.get(item.id);
      this.#registered.get(name)?.dispose();
      const call = (caller: Caller, args: readonly unknown[]) => {
        const { _row = 0, _column = 0, _subUnitId: sheet = '' } = caller;
        messages.set(sheet, _row, _column, undefined);
        if (!implementation) return '#N/A';
        const shown = engine.sheetById(sheet);
        const address = `${shown ? sheetPrefix(shown.name) : ''}${cellName(_row, _column)}`;
        const place = { sheet, row: _row, column: _column };
        const outcome = invoke(
          item,
          implementation,
          args,
          { address, functionName: name },
          this.later,
          place,
        );
        if (outcome.message !== undefined) messages.set(sheet, _row, _column, outcome.message);
        return outcome.result;
      };
      const registered = engine.api.getFormula().registerFunction(
        name,
        // A plain function: the engine calls it as a method of the object that knows the cell.
        function (this: unknown, ...args: unknown[]) {
          return call((this ?? {}) as Caller, args) as never;
        } as never,
        item.description ?? '',
      );
      this.#registered.set(name, registered);
    }
    engine.calculation.expect();
  }
}

interface Outcome {
  readonly result: Scalar | Scalar[][];
  readonly message?: string;
}

function isPromise(value: unknown): value is PromiseLike<unknown> {
  return typeof (value as { then?: unknown } | null | undefined)?.then === 'function';
}

/**
 * One call, from the engine's arguments to the engine's result; busy until a function has answered that gave a promise.
 * Never throws: that would end the process.
 */
function invoke(
  metadata: FunctionMetadata,
  implementation: Implementation,
  given: readonly unknown[],
  invocation: { address: string; functionName: string },
  later: Later,
  place: Place,
): Outcome {
  const args = new Arguments(
    metadata,
    given.map((value) => (value === OMITTED_TEXT ? null : value)),
  );
  if (args.refusal) return { result: args.refusal };
  const calls = args.lifted();
  let message: string | undefined;
  const run = (list: readonly unknown[]): unknown => {
    try {
      return answer(list);
    } catch (thrown) {
      const error = asFunctionError(thrown);
      message ??= error.message || undefined;
      return error.code;
    }
  };
  const answer = (list: readonly unknown[]): unknown => {
    const keyOf = () => `${invocation.functionName} ${JSON.stringify(list)}`;
    if (later.has(place)) {
      const known = later.find(place, keyOf());
      if (known === 'waiting') return GETTING_DATA;
      if (known?.ok) return known.value;
      if (known) throw known.error;
    }
    const result = (implementation as (...all: unknown[]) => unknown)(...list, { ...invocation });
    if (!isPromise(result)) return result;
    later.wait(place, keyOf(), result);
    return GETTING_DATA;
  };
  if (calls.length === 1 && calls[0]!.length === 1) return finish(run(calls[0]![0]!), () => message);
  const result = calls.map((line) => line.map((list) => toScalar(run(list))));
  return { result, ...(message === undefined ? {} : { message }) };
}

function finish(result: unknown, said: () => string | undefined): Outcome {
  let note: string | undefined;
  const plain = (value: unknown): Scalar => {
    const error = value instanceof Error ? asFunctionError(value) : undefined;
    note ??= error?.message || undefined;
    return error ? error.code : toScalar(value);
  };
  const converted = Array.isArray(result)
    ? result.map((line) => (Array.isArray(line) ? line.map(plain) : [plain(line)]))
    : plain(result);
  const message = said() ?? note;
  return { result: converted, ...(message === undefined ? {} : { message }) };
}

/** A `CustomFunctions.Error` of any realm has a code; every other exception is Excel's `#VALUE!`, without a text. */
function asFunctionError(thrown: unknown): { code: string; message: string } {
  const { code, message } = (thrown ?? {}) as { code?: unknown; message?: unknown };
  if (!isErrorKind(code)) return { code: '#VALUE!', message: '' };
  return { code, message: typeof message === 'string' ? message : '' };
}
function toScalar(value: unknown): Scalar {
  if (value === null || value === undefined) return 0;
  if (typeof value === 'number') return Number.isFinite(value) ? value : '#NUM!';
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  return '#VALUE!';
}
