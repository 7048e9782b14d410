import type { SheetReading } from '../../src/excel/host';
import { certificatePlan } from '../../src/sheets/certificate';
import type { CertifiedSeal } from '../../src/sheets/certificate/seal';
import type { Plan } from '../../src/sheets/plan';

/** The certificate of a run as its sheet stands now; it holds links, so it follows what is typed later. */
export function certify(
  { sheet, values }: SheetReading,
  issuedBy: string,
  id: string,
  seal?: CertifiedSeal,
): Plan {
  const addresses = Object.fromEntries(Object.entries(values).map(([name, { address }]) => [name, address]));
  return certificatePlan({ run: { sheet, addresses }, number: '', issuedBy, ...(seal ? { seal } : {}) }, id);
}
