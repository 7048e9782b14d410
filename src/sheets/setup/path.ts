import type { RunSetup } from '../runsetup';

type Leaf = string | number | boolean;
type PathIn<T> = T extends unknown
  ? {
      [K in keyof T & string]-?: NonNullable<T[K]> extends Leaf ? K : `${K}.${PathIn<NonNullable<T[K]>>}`;
    }[keyof T & string]
  : never;
type ValueIn<T, P extends string> = T extends unknown
  ? P extends `${infer Key}.${infer Rest}`
    ? Key extends keyof T
      ? ValueIn<NonNullable<T[Key]>, Rest>
      : never
    : P extends keyof T
      ? NonNullable<T[P]>
      : never
  : never;

/** Where a field stands in a run's set-up: `meter.digit`, `uncertainty.spectral.red`. */
export type SetupPath = PathIn<RunSetup>;
export type SetupValue<P extends SetupPath> = ValueIn<RunSetup, P>;

type Node = Readonly<Record<string, unknown>>;

/** What stands at a path; undefined where it, or a part of the way, is not there. */
export function valueAt<P extends SetupPath>(setup: object, path: P): SetupValue<P> | undefined {
  return path.split('.').reduce<unknown>((node, key) => (node as Node | undefined)?.[key], setup) as
    | SetupValue<P>
    | undefined;
}

export type PathAndValue = readonly [path: SetupPath, value: Leaf | undefined];

/** The same set-up with values put at their paths; what is undefined leaves alone what was there. */
export function withValues<T extends object>(base: T, values: readonly PathAndValue[]): T {
  return values.reduce<object>(
    (node, [path, value]) => (value === undefined ? node : put(node, path.split('.'), value)),
    base,
  ) as T;
}

function put(node: object, [key, ...rest]: readonly string[], value: Leaf): object {
  const inner = (node as Node)[key!] as object | undefined;
  return { ...node, [key!]: rest.length === 0 ? value : put(inner ?? {}, rest, value) };
}
