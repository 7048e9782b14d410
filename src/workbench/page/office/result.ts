/** The answers that Office's callback functions get (`Office.AsyncResult`). */
export type Callback<T> = ((result: Office.AsyncResult<T>) => void) | undefined;

/** Calls back with a value, later, as every host does: never before the call has returned. */
export function succeed<T>(callback: Callback<T>, value: T): void {
  answer(callback, { status: 'succeeded', value, error: undefined });
}

/** Calls back with an error of Office's numbering, e.g. 12007: a dialog is open already. */
export function fail<T>(callback: Callback<T>, code: number, name: string, message: string): void {
  answer(callback, { status: 'failed', value: undefined, error: { code, name, message } });
}

function answer<T>(callback: Callback<T>, result: { status: string; value: unknown; error: unknown }): void {
  if (!callback) return;
  const full = { asyncContext: undefined, diagnostics: undefined, ...result };
  queueMicrotask(() => callback(full as unknown as Office.AsyncResult<T>));
}
