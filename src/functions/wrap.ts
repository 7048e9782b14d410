import { explain, type Problem } from '../photometry/outcome';
import type { FunctionRecord, Result } from './record';
import { FUNCTIONS } from './table';

/** The host's error class: `CustomFunctions.Error`. Its message shows only for these two kinds. */
export type CellErrorClass = new (code: '#VALUE!' | '#N/A', message: string) => Error;

type Listener = (id: string, raw: readonly unknown[]) => void;
const listeners = new Set<Listener>();

/** Hears the arguments of every call as the host hands them over, until the function returned is called. */
export function listenToCalls(listener: Listener): () => void {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
}

/**
 * A record as the function Excel calls. Excel adds an invocation object after the last argument; it is cut off
 * here. Problems leave as the two errors that show a text: #N/A if something is only missing, #VALUE! otherwise.
 *
 * @param errorClass the host's class of errors, asked for when one is thrown: it comes later than the functions
 */
export function wrap(
  record: FunctionRecord,
  errorClass: () => CellErrorClass | undefined,
): (...raw: unknown[]) => Result {
  return (...raw) => {
    for (const hear of listeners) hear(record.id, raw);
    const outcome = record.evaluate(raw.slice(0, record.params.length));
    if (outcome.ok) return outcome.value;
    const words = explain(outcome.problems);
    const CellError = errorClass();
    throw CellError ? new CellError(errorKind(outcome.problems), words) : new Error(words);
  };
}

export function errorKind(problems: readonly Problem[]): '#VALUE!' | '#N/A' {
  return problems.every(({ kind }) => kind === 'missing') ? '#N/A' : '#VALUE!';
}

/** Registers every function with the host: `associate` is `CustomFunctions.associate`. */
export function associateAll(
  associate: (id: string, implementation: (...raw: unknown[]) => Result) => void,
  errorClass: () => CellErrorClass | undefined,
): void {
  for (const record of FUNCTIONS) associate(record.id, wrap(record, errorClass));
}
