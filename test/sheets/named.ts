import { addressesOf } from '../../src/sheets/filled';
import type { Plan } from '../../src/sheets/plan';

/** Where a plan has what it calls by a name, whether the sheet has the name or not. */
export function rangeNamed(plan: Plan, name: string): string {
  const range = addressesOf(plan)[name];
  if (range === undefined) throw new Error(`The plan has no ${name}`);
  return range;
}
