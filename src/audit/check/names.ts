import { addressOf, rectOf } from '../../sheets/address';
import type { DefinedName } from '../../sheets/book';
import { IDENTITY, type PlanName } from '../../sheets/plan';
import { broken } from '../formula/normal';
import { SEAL_NAMES } from '../seal/names';
import { ownAddress, type SheetView } from '../view';
import type { Finding } from './finding';

/** Names present and pointing where they should; strangers are noted. */
export function checkNames({ sheet }: SheetView, planned: readonly PlanName[]): Finding[] {
  const found: Finding[] = [];
  const own = new Map(sheet.names.map((name) => [name.name.toLowerCase(), name]));
  for (const plan of planned) {
    const finding = checkName(sheet.name, plan, own.get(plan.name.toLowerCase()));
    if (finding) found.push(finding);
  }
  const known = new Set([...planned.map(({ name }) => name.toLowerCase()), IDENTITY.toLowerCase()]);
  for (const { name, refersTo } of sheet.names) {
    if (known.has(name.toLowerCase()) || SEAL_NAMES.test(name)) continue;
    found.push({
      sheet: sheet.name,
      kind: 'name',
      severity: 'note',
      message: `The sheet has a name ${name} that is not of its layout.`,
      expected: 'no such name',
      found: `${name} ${refersTo}`,
    });
  }
  return found;
}

function checkName(
  sheet: string,
  { name, range: planned }: PlanName,
  defined: DefinedName | undefined,
): Finding | undefined {
  // A plan may say J22:J22 for one cell.
  const range = addressOf(rectOf(planned));
  const where = { sheet, at: range, kind: 'name', expected: `${name} = ${range}` } as const;
  if (!defined) {
    return {
      ...where,
      severity: 'error',
      message: `The name ${name} is missing: formulas that use it cannot be computed.`,
      found: 'no such name',
      remedy: 'restore-name',
    };
  }
  if (ownAddress(defined, sheet) === range) return undefined;
  const form = broken(defined.refersTo);
  if (form && ownAddress({ ...defined, refersTo: form.meant }, sheet) === range) {
    return {
      ...where,
      severity: 'error',
      message: `The name ${name} was written as ${form.form}, as if it were in another workbook.`,
      found: defined.refersTo,
      remedy: 'restore-name',
    };
  }
  return {
    ...where,
    severity: 'error',
    message: `The name ${name} does not point to ${range}.`,
    found: defined.refersTo,
    remedy: 'restore-name',
  };
}
