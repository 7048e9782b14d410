import { report, reportText } from '../../metrology/report';
import { bad, chain, good, missing } from '../../photometry/outcome';
import { cellsOf, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { CERTIFICATE_VERSION, certificatePlan } from '../../sheets/certificate';
import type { CellName } from '../../sheets/names/all';
import type { Plan } from '../../sheets/plan';
import { BUDGET_RESULT, type BudgetId } from '../../sheets/run/budgetid';
import type { Finding } from '../check/finding';
import { Readings } from '../recompute/readings';
import type { SheetView } from '../view';
import { cellNamed, cellsNamed, keptPlans } from './cells';
import { checkStamps } from './certificate/stamps';
import type { KindAudit, Recomputed, Unknown } from './kind';
import { type LinkedRun, linkedRun } from './linkedrun';
import { linkedTo } from './links';
import { resultCells, wordsNamed } from './results';
import { runRecomputed, runSetup } from './run';

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
/** What stands under "also found", by the words beside it. */
const OTHERS: Readonly<Record<string, readonly [name: CellName, id?: BudgetId]>> = {
  'Least to greatest of nine': ['UniformityMinMax', 'Uniformity'],
  'Mean illuminance, lx': ['WhiteIlluminance'],
  'Screen luminance, cd/m²': ['ScreenLuminance', 'Luminance'],
  'Contrast, full white : black': ['SequentialContrast', 'Contrast'],
  'Contrast within one picture': ['BoardContrast', 'Board'],
};

/** `360 ± 44`, `(80.5 ± 2.7) %`; undefined where powers of ten would be written, which the sheet's formula cannot. */
function reported(y: number, u: number, isPercent: boolean): string | undefined {
  const [value, expanded] = isPercent ? [100 * y, 100 * u] : [y, u];
  if (report(value, expanded).exponent !== 0) return undefined;
  return reportText(value, expanded, isPercent ? '%' : '');
}

/** The results as they are reported, from the readings of the run. */
function recompute(plan: Plan, { view }: LinkedRun): Map<string, Recomputed> {
  const own = runRecomputed(view);
  const result = (name: CellName): Recomputed => own.get(name) ?? bad(missing(name, 'It was not measured.'));
  const found = new Map<string, Recomputed>();
  for (const [id, name] of RESULTS) {
    const at = cellNamed(plan, `Certified${id}`);
    if (at === '') continue;
    const { row } = rectOf(at);
    const both = chain(result(name), (y) =>
      chain(result(`${id}Expanded`), (u) => good(report(Number(y), Number(u)))),
    );
    // Powers of ten are beyond what the sheet's formula writes.
    if (!both.ok || both.value.exponent === 0) {
      found.set(
        at,
        chain(both, ({ value }) => good(value)),
      );
      found.set(
        cellNamed(plan, `Certified${id}U`),
        chain(both, ({ expanded }) => good(expanded)),
      );
    }
    found.set(`D${row + 1}`, result(`${id}K`));
    if (id === 'Ratio') continue;
    found.set(`E${row + 1}`, result(`${id}Limit`));
    found.set(`F${row + 1}`, result(`${id}Verdict`));
  }
  const nets = new Readings(view, runSetup(view)).net('White');
  cellsNamed(plan, 'CertifiedMap').forEach((at, i) => {
    found.set(
      at,
      chain(nets, (nine) => good(nine[i]!)),
    );
  });
  for (const [at, { value }] of Object.entries(plan.cells)) {
    const other = typeof value === 'string' && at.startsWith('D') ? OTHERS[value] : undefined;
    if (!other) continue;
    const [name, id] = other;
    const y = result(name);
    const u = id && cellNamed(plan, `Certified${id}`) !== '' ? own.get(`${id}Expanded`) : undefined;
    const cell = at.replace('D', 'F');
    if (!u?.ok || typeof u.value !== 'number' || u.value <= 0 || !y.ok || typeof y.value !== 'number') {
      found.set(cell, y);
      continue;
    }
    const text = reported(y.value, u.value, BUDGET_RESULT[id!].isPercent === true);
    if (text !== undefined) found.set(cell, good(text));
  }
  return new Map([...found].filter(([at]) => plan.cells[at]?.formula !== undefined));
}

function findings(view: SheetView, plan: Plan, book: Book | undefined): readonly Finding[] {
  const run = certifiedRun(view, book);
  return 'why' in run ? [] : checkStamps(view, plan, run.view);
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
  recompute: (view, plan, book) => {
    const run = certifiedRun(view, book);
    return 'why' in run ? new Map() : recompute(plan, run);
  },
  findings,
};
