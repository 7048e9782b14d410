/**
 * What Office.js sends with every `context.sync()` and what it expects back. Read from the client library
 * itself (`@microsoft/office-js`, dist/excel-web-16.00.debug.js: ClientRequestBase, ObjectPathFactory,
 * CommonActionFactory, HostBridgeRequestExecutor).
 */
export interface BridgeMessage {
  readonly id: number;
  readonly type: number;
  readonly flags?: number;
  readonly message: { readonly url?: string; readonly method?: string; readonly body?: unknown };
}
/** A request and its answer. */
export const REQUEST = 1;
/** Something the host tells unasked: events. */
export const NOTICE = 3;
/** `Excel.run({ delayForCellEdit: true })`: the host waits until nobody types into a cell. */
export const FLAG_DELAY_FOR_CELL_EDIT = 64;

export interface Batch {
  readonly Actions: readonly Action[];
  readonly ObjectPaths: Readonly<Record<string, ObjectPath>>;
}
export interface ObjectPath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: ArgumentInfo;
}
export const PATH = {
  global: 1,
  created: 2,
  method: 3,
  property: 4,
  indexer: 5,
  reference: 6,
  nothing: 7,
} as const;

export interface ArgumentInfo {
  readonly Arguments?: readonly unknown[];
  /** Beside each argument: 0, or the id of the object path that stands there, nested like the arguments. */
  readonly ReferencedObjectPathIds?: readonly unknown[];
}
export interface Action {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: ArgumentInfo;
  readonly QueryInfo?: Query;
}
export const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 } as const;

export interface Query {
  readonly Select?: readonly string[];
  readonly Expand?: readonly string[];
  readonly Top?: number;
  readonly Skip?: number;
}
export interface BatchResult {
  readonly Results: readonly { readonly ActionId: number; readonly Value: unknown }[];
  readonly TraceIds: readonly number[];
  readonly Error?: {
    readonly Code: string;
    readonly Message: string;
    readonly Location: string;
    readonly ActionIndex: number;
    readonly HttpStatusCode: number;
  };
}
