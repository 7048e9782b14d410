import type { FunctionRecord, Result } from '../../src/functions/record';
import { FUNCTIONS } from '../../src/functions/table';
import { wrap } from '../../src/functions/wrap';

/** Stands for the host's error class: what a cell shows, and the text behind its flag. */
export class CellError extends Error {
  constructor(
    readonly code: '#VALUE!' | '#N/A',
    message: string,
  ) {
    super(message);
  }
}

function recordOf(id: string): FunctionRecord {
  const record = FUNCTIONS.find((candidate) => candidate.id === id);
  if (!record) throw new Error(`There is no function ${id}.`);
  return record;
}

/** Calls a function as Excel does: arguments left out are null, and an invocation object comes last. */
export function call(id: string, ...args: readonly unknown[]): Result | CellError {
  const record = recordOf(id);
  const all = record.params.map((_, i) => (args[i] === undefined ? null : args[i]));
  try {
    return wrap(record, () => CellError)(...all, ...args.slice(all.length), { address: "'Run 1'!B9" });
  } catch (error) {
    if (error instanceof CellError) return error;
    throw error;
  }
}

/** The number a function gives, or a failed test with its message. */
export function numberOf(id: string, ...args: readonly unknown[]): number {
  const result = call(id, ...args);
  if (typeof result === 'number') return result;
  throw new Error(result instanceof CellError ? `${result.code} ${result.message}` : JSON.stringify(result));
}

/** The error a function gives, or a failed test with its value. */
export function errorOf(id: string, ...args: readonly unknown[]): CellError {
  const result = call(id, ...args);
  if (result instanceof CellError) return result;
  throw new Error(`Expected an error, got ${JSON.stringify(result)}.`);
}
