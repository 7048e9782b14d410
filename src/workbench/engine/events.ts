/** What happened in the workbook, in the words the API's event arguments use. */
export type EngineEvent =
  | {
      readonly kind: 'changed';
      readonly sheet: string;
      readonly address: string;
      readonly changeType: 'RangeEdited' | 'RowInserted' | 'RowDeleted' | 'ColumnInserted' | 'ColumnDeleted';
      /** By an add-in or by a person: `EventTriggerSource` of the API (1.14). */
      readonly trigger: 'ThisLocalAddin' | 'Unknown';
      readonly before?: unknown;
      readonly after?: unknown;
    }
  | { readonly kind: 'calculated'; readonly sheet: string; readonly address: string }
  | { readonly kind: 'added' | 'deleted' | 'activated' | 'deactivated'; readonly sheet: string }
  | { readonly kind: 'selected'; readonly sheet: string; readonly address: string }
  | { readonly kind: 'renamed'; readonly sheet: string; readonly before: string; readonly after: string }
  | { readonly kind: 'protection'; readonly sheet: string; readonly isProtected: boolean };

export class Events {
  readonly #listeners = new Set<(event: EngineEvent) => void>();

  listen(listener: (event: EngineEvent) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
  emit(event: EngineEvent): void {
    for (const listener of this.#listeners) listener(event);
  }
}
