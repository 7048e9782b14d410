import type { Book } from '../sheets/book';
import { isExample, marked } from '../sheets/example/mark';
import type { Plan } from '../sheets/plan';
import { KINDS } from './kinds/all';
import type { KindAudit } from './kinds/kind';
import type { SheetView } from './view';

/** What a sheet ought to be, or why that cannot be said. */
export type Expected =
  | { readonly known: true; readonly plan: Plan; readonly audit: KindAudit }
  | { readonly known: false; readonly why: string };

/**
 * The plan a sheet was built from, found again from its hidden mark, its names and its cells. Input values in it
 * are those of some sheet of the same layout and are not to be compared.
 *
 * @param book the workbook; without it sheets that are linked to others cannot be judged
 */
export function expectedOf(view: SheetView, book?: Book): Expected {
  const { identity } = view;
  if (!identity) return { known: false, why: 'Its hidden mark cannot be read.' };
  const { kind, version } = identity;
  const audit = KINDS[kind];
  if (!audit) return { known: false, why: `Sheets of the kind “${kind}” are not known here.` };
  if (version !== audit.version) {
    const age = version > audit.version ? 'newer than this program' : 'older than this program still knows';
    return {
      known: false,
      why: `Its layout has version ${version}, ${age} (which has ${audit.version}).`,
    };
  }
  return built(view, audit, book);
}

/**
 * Today's plan for a sheet of an earlier layout: what it would be if it were built now. Its places are not those of
 * the sheet; names are.
 */
export function earlierOf(view: SheetView, book: Book): Expected {
  const { identity } = view;
  const audit = identity && KINDS[identity.kind];
  if (!audit || identity.version >= audit.version) return expectedOf(view, book);
  return built(view, audit, book);
}

function built(view: SheetView, audit: KindAudit, book: Book | undefined): Expected {
  const plan = audit.plan(view, book);
  if ('why' in plan) return { known: false, why: plan.why };
  const isOfExample = view.identity !== undefined && isExample(view.identity);
  return { known: true, plan: isOfExample ? markedOnce(plan) : plan, audit };
}

const markedPlans = new WeakMap<Plan, Plan>();

/** Sheets of the ready example say in their title that their data are invented. */
function markedOnce(plan: Plan): Plan {
  const known = markedPlans.get(plan) ?? marked(plan);
  markedPlans.set(plan, known);
  return known;
}
