import type { Calls, Result } from './calls';
import type { Answer } from './messages';

/** One batch of the client library as it arrives: the body is what `context.sync()` sends everywhere. */
export interface BatchRequest {
  readonly url: string;
  readonly method: string;
  readonly flags: number;
  readonly body: string;
}

interface RichApi {
  readonly ArrayData: readonly [string, string, string, unknown, string, unknown, number];
}
interface Body {
  readonly Actions: readonly {
    readonly Id: number;
    readonly Name: string;
    readonly ArgumentInfo?: { readonly Arguments?: readonly unknown[] };
  }[];
  readonly ObjectPaths: Readonly<Record<string, { readonly ObjectPathType: number; readonly Name: string }>>;
}

/** `ObjectPathType` of an object that no other leads to. */
const CREATED = 2;
/** Batches for the custom functions and not for the workbook are about an object of this kind. */
const SERVICE = 'Microsoft.';
const READY = '_SetOsfControlContainerReadyForCustomFunctions';
const RESULTS = 'SetInvocationArrayResults';
const FEATURES = '_GetEnabledFeatures';

/**
 * Answers batches: those for the workbook by `run`, which gives the body of the answer; those of the custom functions
 * here. `features` are numbers of the library: with 2 it sends results every 0.2 s, without every 0.5 s.
 */
export function richApi(
  run: (request: BatchRequest) => Promise<string>,
  calls: Calls,
  features: readonly number[],
): (data: RichApi) => Promise<Answer> {
  return async ({ ArrayData: [, method, url, , body, , flags] }) => {
    const text = isService(body)
      ? service(JSON.parse(body) as Body, calls, features)
      : await run({ url, method, flags, body });
    return { Data: [200, [], text] };
  };
}

function isService(body: string): boolean {
  if (!body.includes(`"${SERVICE}`)) return false;
  const { ObjectPaths } = JSON.parse(body) as Body;
  return Object.values(ObjectPaths).some(
    ({ ObjectPathType, Name }) => ObjectPathType === CREATED && Name.startsWith(SERVICE),
  );
}

function service({ Actions }: Body, calls: Calls, features: readonly number[]): string {
  const Results = Actions.map(({ Id, Name, ArgumentInfo }) => {
    if (Name === RESULTS) calls.take((ArgumentInfo?.Arguments?.[0] ?? []) as readonly Result[]);
    return { ActionId: Id, Value: Name === FEATURES ? features : null };
  });
  // After the answer, so that the library is done with its own beginning.
  if (Actions.some(({ Name }) => Name === READY)) setTimeout(() => calls.ready());
  return JSON.stringify({ Results, TraceIds: [] });
}
