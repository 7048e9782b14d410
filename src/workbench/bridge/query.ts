import { ApiCollection, ApiObject } from '../api/object';
import { lowerFirst, readProperty, upperFirst } from './members';
import type { Query } from './wire';

type Value = Record<string, unknown>;

/**
 * Answers `load`: the asked properties with a capital first letter, nested objects nested, collections as
 * `_Items`. Without names, or with `*`, every plain property the class has.
 */
export function answerQuery(object: ApiObject, query: Query): Value {
  const select = [...(query.Select ?? []), ...(query.Expand ?? [])].map((path) => path.split(/[/.]/));
  if (!(object instanceof ApiCollection)) return properties(object, select);
  const skip = query.Skip ?? 0;
  const items = object.all().slice(skip, query.Top === undefined ? undefined : skip + query.Top);
  const own = select.filter(([first = '']) => object.scalars.includes(lowerFirst(first)));
  const perItem = select.filter((path) => !own.includes(path));
  return {
    ...(own.length > 0 ? properties(object, own) : {}),
    _Items: items.map((item) => ({ ...item.identity(), ...properties(item, perItem) })),
  };
}

function properties(object: ApiObject, select: readonly (readonly string[])[]): Value {
  const value: Value = { ...object.identity() };
  const nested = new Map<string, string[][]>();
  const names = select.length === 0 ? [['*']] : select;
  for (const [first = '*', ...rest] of names) {
    if (first === '*' || first === '$all') {
      for (const name of object.scalars) value[upperFirst(name)] = plain(readProperty(object, name));
    } else if (rest.length > 0) {
      const paths = nested.get(first) ?? [];
      paths.push(rest);
      nested.set(first, paths);
    } else {
      const found = readProperty(object, first);
      value[upperFirst(first)] = found instanceof ApiObject ? answerQuery(found, {}) : plain(found);
    }
  }
  for (const [name, paths] of nested) {
    const child = readProperty(object, name);
    value[upperFirst(name)] =
      child instanceof ApiObject ? answerQuery(child, { Select: paths.map((path) => path.join('/')) }) : null;
  }
  return value;
}

/** JSON has no undefined: a property without a value is null, as in Excel. */
function plain(value: unknown): unknown {
  return value === undefined ? null : value;
}
