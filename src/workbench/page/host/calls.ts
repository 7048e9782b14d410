import { CustomFunctionError } from '../../engine/functionerror';
import type { Entry } from './addin';

/** Category and type of a call among the messages to the add-in. */
const CALL = { category: 1, type: 1000 } as const;
/** The add-in takes error cells as arguments. */
const TAKES_ERRORS = 4;

/** Numbers that the library gives errors (`_getCustomFunctionResultErrorCodeFromErrorCode`); all others are #VALUE!. */
const ERRORS: Readonly<Record<number, string>> = { 1: '#N/A', 5: '#DIV/0!', 6: '#NUM!', 8: '#NULL!' };

/** `[id, true, value, …]` or `[id, false, message, number, …]`. */
export type Result =
  | readonly [number, true, unknown, ...unknown[]]
  | readonly [number, false, string, number, ...unknown[]];

interface Waiting {
  readonly entry: Entry;
  resolve(value: unknown): void;
  reject(error: Error): void;
}

/** Calls of custom functions that the add-in answers when it is ready, some at a time. */
export class Calls {
  readonly #waiting = new Map<number, Waiting>();
  #isReady = false;
  #calls = 0;

  /** `send` hands calls to the add-in. */
  constructor(readonly send: (entries: readonly Entry[]) => void) {}

  /** Calls a function by its id of functions.json; a call before the add-in is ready waits for it. */
  call(id: string, args: readonly unknown[], address: string): Promise<unknown> {
    const number = ++this.#calls;
    const message = JSON.stringify([number, id, toWire(args), address, TAKES_ERRORS]);
    const entry = { ...CALL, message };
    const result = new Promise<unknown>((resolve, reject) => {
      this.#waiting.set(number, { entry, resolve, reject });
    });
    if (this.#isReady) this.#sendSoon(entry);
    return result;
  }

  /** The add-in can be called: what waits goes to it, also what another one was asked before it went. */
  ready(): void {
    this.#isReady = true;
    this.#soon = [...this.#waiting.values()].map(({ entry }) => entry);
    this.#flush();
  }
  /** The add-in is loaded anew. */
  gone(): void {
    this.#isReady = false;
  }

  take(results: readonly Result[]): void {
    for (const result of results) {
      const [number, isGood, value] = result;
      const call = this.#waiting.get(number);
      this.#waiting.delete(number);
      if (isGood) call?.resolve(fromWire(value));
      else call?.reject(new CustomFunctionError(ERRORS[result[3]] ?? '#VALUE!', String(value ?? '')));
    }
  }

  #soon: Entry[] | undefined;
  /** Calls of one calculation go together. */
  #sendSoon(entry: Entry): void {
    if (this.#soon) this.#soon.push(entry);
    else {
      this.#soon = [entry];
      queueMicrotask(() => this.#flush());
    }
  }
  #flush(): void {
    const entries = this.#soon ?? [];
    this.#soon = undefined;
    if (this.#isReady && entries.length > 0) this.send(entries);
  }
}

/** Error cells as the library reads them. */
function toWire(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(toWire);
  if (value instanceof CustomFunctionError) return { type: 'CustomFunctionError', code: value.code };
  return value;
}

/** Errors within a result are objects of the library's. */
function fromWire(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(fromWire);
  if (typeof value === 'object' && value !== null) {
    const { basicValue, code, message } = value as { basicValue?: string; code?: string; message?: string };
    return new CustomFunctionError(basicValue ?? code ?? '#VALUE!', message ?? '');
  }
  return value;
}
