import type { Book } from '../sheets/book';
import { isExample, marked } from '../sheets/example/mark';
import type { Identity, Plan } from '../sheets/plan';
import { KINDS } from './kinds/all';
import type { KindAudit } from './kinds/kind';
import type { SheetView } from './view';

/** What a sheet ought to be, or why that cannot be said. */
export type Expected =
  | {
      readonly known: true;
      readonly plan: Plan;
      readonly audit: KindAudit;
      /** Of a layout of before: the plan is what of it today's program knows. */
      readonly isOlder?: true;
    }
  | { readonly known: false; readonly why: string };

/** Today's plan for what stands on a sheet, whichever layout it has: its names count, its places do not. */
export function builtToday(view: SheetView, book: Book | undefined): Expected {
  const audit = view.identity && KINDS[view.identity.kind];
  if (!audit) return { known: false, why: `Sheets of the kind “${view.identity?.kind}” are not known here.` };
  const plan = audit.plan(view, book);
  if ('why' in plan) return { known: false, why: plan.why };
  const isOfExample = view.identity !== undefined && isExample(view.identity);
  return { known: true, plan: isOfExample ? markedOnce(plan) : plan, audit };
}

/** Whether a sheet has a layout of before. */
export function isOlder({ identity }: SheetView): boolean {
  return identity !== undefined && isOlderLayout(identity);
}

/** The same of what a sheet's mark says. */
export function isOlderLayout({ kind, version }: Pick<Identity, 'kind' | 'version'>): boolean {
  const today = KINDS[kind];
  return today !== undefined && version < today.version;
}

const markedPlans = new WeakMap<Plan, Plan>();

/** Sheets of the ready example say in their title that their data are invented. */
function markedOnce(plan: Plan): Plan {
  const known = markedPlans.get(plan) ?? marked(plan);
  markedPlans.set(plan, known);
  return known;
}
