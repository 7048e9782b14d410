import { BATCH_NAMES } from './batch';
import {
  ACCEPTANCE_NAMES,
  AGEING_NAMES,
  CERTIFICATE_NAMES,
  COMPARISON_NAMES,
  LOG_NAMES,
  METER_CHECK_NAMES,
  NEED_NAMES,
  OFFERS_NAMES,
  OVERVIEW_NAMES,
  REPORT_NAMES,
  SPOT_NAMES,
} from './others';
import { RUN_NAMES } from './run';

/**
 * Names of cells and ranges that the sheets of a kind can have: which of them one has follows from its set-up. What
 * reads a sheet asks by these, so that a slip of the pen does not compile. Names stay in workbooks: one once given
 * keeps its meaning.
 */
export const NAMES = {
  run: RUN_NAMES,
  comparison: COMPARISON_NAMES,
  spot: SPOT_NAMES,
  need: NEED_NAMES,
  offers: OFFERS_NAMES,
  batch: BATCH_NAMES,
  acceptance: ACCEPTANCE_NAMES,
  certificate: CERTIFICATE_NAMES,
  ageing: AGEING_NAMES,
  metercheck: METER_CHECK_NAMES,
  overview: OVERVIEW_NAMES,
  findings: REPORT_NAMES,
  trace: REPORT_NAMES,
  log: LOG_NAMES,
} as const;

type Kind = keyof typeof NAMES;
export type NameOf<K extends Kind> = (typeof NAMES)[K][number];
export type CellName = NameOf<Kind>;

/** What stands behind names of a sheet; a sheet has some of them. */
export type ByName<T> = Readonly<Partial<Record<CellName, T>>>;

type BaseOf<Name> = Name extends `${infer Base}Plain` ? Base : never;
/** Results that stand twice: by a function, and under the same name with "Plain" behind it by a plain formula. */
export type ResultName = Extract<BaseOf<CellName>, CellName>;

const BY_KIND = new Map(Object.entries(NAMES).map(([kind, names]) => [kind, new Set<string>(names)]));

export function isNameOf<K extends Kind>(kind: K, name: string): name is NameOf<K> {
  return BY_KIND.get(kind)!.has(name);
}
