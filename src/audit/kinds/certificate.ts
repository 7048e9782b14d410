import { cellsOf, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { CERTIFICATE_VERSION, certificatePlan } from '../../sheets/certificate';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import type { SheetView } from '../view';
import { cellsNamed, keptPlans } from './cells';
import { checkStamps } from './certificate/stamps';
import type { KindAudit, Unknown } from './kind';
import { type LinkedRun, linkedRun } from './linkedrun';
import { linkedTo } from './links';
import { resultCells, wordsNamed } from './results';

const kept = keptPlans();

/** The run a certificate is about: the sheet that most of its formulas are linked to. */
function certifiedRun(view: SheetView, book: Book | undefined): LinkedRun | Unknown {
  const found = linkedTo(view, Object.keys(view.sheet.cells), book);
  if ('why' in found) return found;
  return found.identity?.kind === 'run'
    ? linkedRun(found)
    : { why: `“${found.sheet.name}” is no run sheet.` };
}

function planOf(view: SheetView, book: Book | undefined): Plan | Unknown {
  const found = certifiedRun(view, book);
  if ('why' in found) return found;
  const run = { sheet: found.sheet, addresses: found.addresses };
  return kept(JSON.stringify(run), () => certificatePlan({ run, number: '', issuedBy: '' }, 'expected'));
}

const RESULTS = [
  ['White', 'WhiteLightOutput'],
  ['Colour', 'ColourLightOutput'],
  ['Ratio', 'ColourToWhite'],
] as const;
function findings(
  view: SheetView,
  plan: Plan,
  book: Book | undefined,
  asItStands: (sheet: string) => SheetView | undefined = () => undefined,
): readonly Finding[] {
  const run = certifiedRun(view, book);
  if ('why' in run) return [];
  // What was compared is the run as it stands, by the method of its time, and not as it would be built today.
  return checkStamps(view, plan, asItStands(run.view.sheet.name) ?? run.view);
}

export const CERTIFICATE: KindAudit = {
  version: CERTIFICATE_VERSION,
  plan: planOf,
  results: (view, plan) => {
    const rows = RESULTS.flatMap(([id]) => cellsNamed(plan, `Certified${id}`)).map(
      (at) => rectOf(at).row + 1,
    );
    const others = new Set(rows.flatMap((row) => cellsOf(`D${row}:E${row}`)));
    const found = resultCells(view, plan, ['CertifiedMap', 'CertifiedCount'], (_, name) => {
      const figure = RESULTS.find(([id]) => name === `Certified${id}U`);
      return figure && `Expanded uncertainty, ${wordsNamed(plan, `Certified${figure[0]}`)}`;
    });
    // The unit of a decision's name is that of the figure it is about.
    return found
      .filter(({ at }) => !others.has(at))
      .map((result) => (/Decision$/.test(result.name) ? { ...result, unit: '' } : result));
  },
  findings,
};
