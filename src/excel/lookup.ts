import type { CellName } from '../sheets/names/all';
import { besidesOf, neighboursOf } from '../sheets/names/beside';
import type { Identity } from '../sheets/plan';
import { localAddress } from './read';

/** Names asked for on one sheet, waiting for the host's answer. */
export interface LookUp {
  /** Once the host has answered: where each stands; names that the sheet has not are left out. */
  addresses(identity: Pick<Identity, 'kind' | 'version'> | undefined): ReadonlyMap<string, string>;
}

/** Queues the look-up of names of a sheet, and of those that others of them stand beside. */
export function lookUp({ names }: Excel.Worksheet, wanted: readonly CellName[]): LookUp {
  const all = new Set([...wanted, ...wanted.flatMap(neighboursOf)]);
  const items = [...all].map((name) => {
    const item = names.getItemOrNullObject(name);
    item.load('formula,scope');
    return { name, item };
  });
  return {
    addresses: (identity) => {
      const own = new Map(
        items.flatMap(({ name, item }) => {
          // A sheet's list of names also finds those of the workbook.
          const isOwn = !item.isNullObject && item.scope === 'Worksheet';
          const address = isOwn ? localAddress(String(item.formula)) : undefined;
          return address ? [[name as string, address] as const] : [];
        }),
      );
      const found = identity ? new Map([...own, ...besidesOf(identity, own)]) : own;
      return new Map(
        wanted.flatMap((name) => {
          const address = found.get(name);
          return address === undefined ? [] : [[name, address] as const];
        }),
      );
    },
  };
}
