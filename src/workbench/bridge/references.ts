import type { ApiObject } from '../api/object';
import { ApiError } from '../errors';

/** Objects the client asked to keep between batches (`_KeepReference`): tracked ranges. */
export class References {
  readonly #byId = new Map<string, ApiObject>();
  readonly #ids = new WeakMap<ApiObject, string>();
  #next = 1;

  keep(object: ApiObject): void {
    if (this.#ids.has(object)) return;
    const id = String(this.#next++);
    this.#ids.set(object, id);
    this.#byId.set(id, object);
  }
  identity(object: ApiObject): Record<string, unknown> {
    const id = this.#ids.get(object);
    return id === undefined ? {} : { _ReferenceId: id };
  }
  get(id: string): ApiObject {
    const object = this.#byId.get(id);
    if (!object) throw new ApiError('InvalidObjectPath', 'The object is not tracked any more.');
    return object;
  }
  release(id: string): void {
    this.#byId.delete(id);
  }
  releaseAll(): void {
    this.#byId.clear();
  }
  get size(): number {
    return this.#byId.size;
  }
}
