import type { Rect } from '../../sheets/address';
import type { Engine } from '../engine/engine';
import type { Sheet } from '../engine/sheet';
import { ApiError } from '../errors';

/**
 * An object of the API. Its members are called as the API calls them: getters are properties to load,
 * setters properties to set, methods methods. What a class does not have is refused by name.
 */
export abstract class ApiObject {
  /** The API's name of the class, for messages. */
  abstract readonly typeName: string;
  /** Properties that `load()` without names brings. */
  readonly scalars: readonly string[] = [];

  constructor(readonly host: ApiHost) {}
  get engine(): Engine {
    return this.host.engine;
  }
  /** What identifies the object to the client: `{ Id }` or `{ _Id }`. */
  identity(): Record<string, unknown> {
    return {};
  }
}

/** A collection. Its items are loaded with their properties; `getItem` answers the client's indexer. */
export abstract class ApiCollection<T extends ApiObject> extends ApiObject {
  abstract all(): T[];
  abstract getItem(key: unknown): T;
  getCount(): number {
    return this.all().length;
  }
  getItemAt(index: unknown): T {
    const item = this.all()[Number(index)];
    if (!item) throw new ApiError('ItemNotFound');
    return item;
  }
  getItemOrNullObject(key: unknown): T | null {
    return orNull(() => this.getItem(key));
  }
}

/** "…OrNullObject": nothing where the other form says ItemNotFound. */
export function orNull<T>(find: () => T): T | null {
  try {
    return find();
  } catch (error) {
    if (error instanceof ApiError && error.code === 'ItemNotFound') return null;
    throw error;
  }
}

/** What an API object needs beside the engine. */
export interface ApiHost {
  readonly engine: Engine;
  /** Which notices the client has asked for. */
  readonly subscriptions: Subscriptions;
  eventsEnabled: boolean;
  /** What the running batch has added; cleared when one begins. */
  readonly added: Set<unknown>;
  /** Objects that lead to each other: a sheet to its ranges, a range to its sheet. */
  worksheet(sheet: Sheet): ApiObject;
  range(sheet: Sheet, rect: Rect): ApiObject;
}
export interface Subscriptions {
  add(event: number, target: string): void;
  remove(event: number, target: string): void;
}
