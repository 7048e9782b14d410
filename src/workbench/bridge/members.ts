import type { ApiObject } from '../api/object';
import { ApiError } from '../errors';

/** Members every object has for our own use; the client must not reach them. */
const INNER: ReadonlySet<string> = new Set([
  'at',
  'alive',
  'move',
  'constructor',
  'host',
  'engine',
  'identity',
  'scalars',
  'typeName',
  'all',
]);

/** `UsedRange` → `usedRange`; `_KeepReference` stays as it is. */
export function lowerFirst(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}
export function upperFirst(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function descriptor(object: ApiObject, name: string): PropertyDescriptor | undefined {
  for (
    let type = Object.getPrototypeOf(object);
    type && type !== Object.prototype;
    type = Object.getPrototypeOf(type)
  ) {
    const found = Object.getOwnPropertyDescriptor(type, name);
    if (found) return INNER.has(name) ? undefined : found;
  }
  return undefined;
}
function missing(object: ApiObject, name: string): ApiError {
  const member = `${object.typeName}.${name}`;
  return new ApiError('ApiNotAvailable', `The workbench does not have ${member}.`, member);
}

export function readProperty(object: ApiObject, wireName: string): unknown {
  const name = lowerFirst(wireName);
  const get = descriptor(object, name)?.get;
  if (!get) throw missing(object, name);
  return located(object, name, () => get.call(object));
}
export function writeProperty(object: ApiObject, wireName: string, value: unknown): void {
  const name = lowerFirst(wireName);
  const set = descriptor(object, name)?.set;
  if (!set) throw missing(object, name);
  located(object, name, () => set.call(object, value));
}
export function callMethod(object: ApiObject, wireName: string, args: readonly unknown[]): unknown {
  const name = lowerFirst(wireName);
  const method: unknown = descriptor(object, name)?.value;
  if (typeof method !== 'function') throw missing(object, name);
  return located(object, name, () => method.apply(object, args));
}

/** Says where an error came from, as the client's `debugInfo.errorLocation` does. */
function located<T>(object: ApiObject, name: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof ApiError && !error.location) error.location = `${object.typeName}.${name}`;
    throw error;
  }
}
