import { cellName, type Rect, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import type { Finding } from '../check/finding';
import { parseOnce } from '../formula/calculate';
import { evaluate } from '../formula/evaluate';
import type { KindAudit } from '../kinds/kind';
import { laidOut } from '../laidout';
import { isSame } from '../number';
import { cellAt, scopeOf, valueAt } from '../view';
import { reasons } from './compare';
import { METHOD_CHANGES, type MethodChange } from './methods';
import type { Renewed } from './renew';

/**
 * Results of functions on an older sheet are held against what today's functions give, unless a method has changed
 * since: then against the plain formula beside them, which says the method of its time as it stands on the sheet. A
 * result that is neither stays an error; so does one without a plain formula.
 *
 * @param stale what is not what its formula gives
 * @param asItIs the workbook with the older sheet in it
 */
export function ofItsTime(
  stale: readonly Finding[],
  renewed: Renewed,
  all: ReadonlyMap<string, Renewed>,
  audit: KindAudit,
  asItIs: Book | undefined,
  changes: readonly MethodChange[] = METHOD_CHANGES,
): Finding[] {
  const { older, anew, plan, places } = renewed;
  const own = changes.filter(({ kind, layout }) => kind === plan.kind && older.identity!.version < layout);
  if (stale.length === 0 || own.length === 0) return [...stale];
  const because = reasons(all, changes);
  const pairs = new Map(
    audit.results(laidOut(older, plan).view, plan).flatMap(({ at, twinAt }) => {
      const twin = twinAt === undefined ? undefined : places.get(twinAt);
      if (twinAt === undefined || twin === undefined) return [];
      // Without a name of its own a function's cell stands as far from its twin as today.
      return [[places.get(at) ?? beside(twin, twinAt, at), { to: at, twin, twinTo: twinAt }] as const];
    }),
  );
  const scope = scopeOf(older, asItIs);
  return stale.filter(({ at, kind }) => {
    const pair = at === undefined || kind !== 'stale' ? undefined : pairs.get(at);
    if (!pair || [pair.to, pair.twinTo].every((to) => because(anew, to).length === 0)) return true;
    const formula = cellAt(older, pair.twin)?.formula;
    const node = formula === undefined ? undefined : parseOnce(formula);
    const plain = node && evaluate(node, scope);
    return plain === undefined || !isSame(plain, valueAt(older, at!));
  });
}

/** The cell that lies to another as `to` does to `from`. */
function beside(at: string, from: string, to: string): string {
  const [here, a, b] = [at, from, to].map((cell) => rectOf(cell)) as [Rect, Rect, Rect];
  return cellName(here.row + b.row - a.row, here.column + b.column - a.column);
}
