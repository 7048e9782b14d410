import { type Callback, succeed } from './result';

/**
 * `Office.context.document.settings`: small values kept with the workbook. They live as long as the workbook
 * stands in the page; a saved file does not carry them.
 */
export function settings(stored: Map<string, unknown>) {
  const values = new Map(stored);
  return {
    get: (name: string): unknown => values.get(name) ?? null,
    set: (name: string, value: unknown): void => {
      values.set(name, structuredClone(value));
    },
    remove: (name: string): void => {
      values.delete(name);
    },
    saveAsync: (callback?: Callback<Office.Settings> | Office.SaveSettingsOptions): void => {
      stored.clear();
      for (const [name, value] of values) stored.set(name, value);
      if (typeof callback === 'function') succeed(callback as Callback<unknown>, null);
    },
  } satisfies Partial<Record<keyof Office.Settings, unknown>>;
}
