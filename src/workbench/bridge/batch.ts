import { ApiCollection, type ApiHost, ApiObject } from '../api/object';
import { Workbook } from '../api/workbook';
import { ApiError, apiError } from '../errors';
import { callMethod, readProperty, writeProperty } from './members';
import { answerQuery } from './query';
import type { References } from './references';
import {
  ACTION,
  type Action,
  type ArgumentInfo,
  type Batch,
  type BatchResult,
  type ObjectPath,
  PATH,
} from './wire';

/**
 * Runs one batch, action by action. As in Excel, what was done before a failing action stays done and what
 * comes after it is not tried. Values are read only after what was written has been calculated.
 */
export class BatchRun {
  readonly #objects = new Map<number, ApiObject | null>();

  constructor(
    readonly host: ApiHost,
    readonly references: References,
    readonly batch: Batch,
  ) {}

  async run(): Promise<BatchResult> {
    this.host.added.clear();
    const release = this.host.engine.holdLooks();
    try {
      return await this.#run();
    } finally {
      release();
    }
  }

  async #run(): Promise<BatchResult> {
    const Results: { ActionId: number; Value: unknown }[] = [];
    const TraceIds: number[] = [];
    for (const [ActionIndex, action] of this.batch.Actions.entries()) {
      try {
        if (action.ActionType === ACTION.trace) {
          TraceIds.push(action.Id);
          Results.push({ ActionId: action.Id, Value: null });
        } else {
          // Methods and queries find everything as it was set; a row of settings goes into the engine as one.
          if (action.ActionType === ACTION.query || action.ActionType === ACTION.method)
            this.host.engine.writeLooks();
          if (action.ActionType === ACTION.query) await this.host.engine.calculation.settled();
          const Value = this.#act(action);
          Results.push({ ActionId: action.Id, Value });
        }
      } catch (error) {
        const { code: Code, message: Message, location: Location, status: HttpStatusCode } = apiError(error);
        return { Results, TraceIds, Error: { Code, Message, Location, ActionIndex, HttpStatusCode } };
      }
    }
    return { Results, TraceIds };
  }

  #act(action: Action): unknown {
    const object = this.#object(action.ObjectPathId);
    switch (action.ActionType) {
      case ACTION.instantiate:
        return object && { ...object.identity(), ...this.references.identity(object) };
      case ACTION.query:
        return (
          object && { ...this.references.identity(object), ...answerQuery(object, action.QueryInfo ?? {}) }
        );
      case ACTION.method:
        return this.#method(action, object);
      case ACTION.set:
        if (object) writeProperty(object, action.Name, this.#arguments(action.ArgumentInfo)[0]);
        return null;
    }
    throw new ApiError(
      'ApiNotAvailable',
      `The workbench does not know actions of type ${action.ActionType}.`,
    );
  }

  #method(action: Action, object: ApiObject | null): unknown {
    if (action.Name === '_KeepReference') {
      if (object) this.references.keep(object);
      return null;
    }
    if (action.Name === '_RemoveReference') {
      this.references.release(String(action.ArgumentInfo?.Arguments?.[0]));
      return null;
    }
    if (action.Name === '_RemoveAllReferences') {
      this.references.releaseAll();
      return null;
    }
    // Excel lets a call on a null object do nothing.
    if (!object) return null;
    const result = callMethod(object, action.Name, this.#arguments(action.ArgumentInfo));
    if (result instanceof ApiObject) return result.identity();
    return result ?? null;
  }

  #object(id: number): ApiObject | null {
    const known = this.#objects.get(id);
    if (known !== undefined) return known;
    const path = this.batch.ObjectPaths[String(id)];
    if (!path) throw new ApiError('InvalidObjectPath');
    const object = this.#resolve(path);
    this.#objects.set(id, object);
    return object;
  }

  #resolve(path: ObjectPath): ApiObject | null {
    switch (path.ObjectPathType) {
      case PATH.global:
        return new Workbook(this.host);
      case PATH.nothing:
        return null;
      case PATH.reference:
        return this.references.get(path.Name);
      case PATH.created:
        throw new ApiError('ApiNotAvailable', `The workbench does not have ${path.Name}.`, path.Name);
    }
    const parent = this.#object(path.ParentObjectPathId!);
    if (!parent) return null;
    const found =
      path.ObjectPathType === PATH.property
        ? readProperty(parent, path.Name)
        : path.ObjectPathType === PATH.indexer && parent instanceof ApiCollection
          ? callMethod(parent, 'getItem', this.#arguments(path.ArgumentInfo))
          : callMethod(parent, path.Name, this.#arguments(path.ArgumentInfo));
    if (found === null || found instanceof ApiObject) return found;
    throw new ApiError('InvalidObjectPath');
  }

  /** Arguments with the objects they stand for. */
  #arguments(info: ArgumentInfo | undefined): unknown[] {
    const dereference = (value: unknown, reference: unknown): unknown => {
      if (typeof reference === 'number' && reference !== 0) return this.#object(reference);
      if (Array.isArray(value) && Array.isArray(reference))
        return value.map((item, index) => dereference(item, reference[index]));
      return value;
    };
    return (info?.Arguments ?? []).map((value, index) =>
      dereference(value, info?.ReferencedObjectPathIds?.[index]),
    );
  }
}
