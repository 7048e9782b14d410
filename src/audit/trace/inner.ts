import { addressOf, rectOf } from '../../sheets/address';
import type { Plan } from '../../sheets/plan';
import { type Node, renewed } from '../formula/ast';
import { isOwnSheet, type Place, type SheetView } from '../view';

/*
 * Workings of a sheet have no names of their own; its plan knows what they are. A trace calls them by these words, as if
 * the formulas did.
 */

/** A sheet with what its plan calls the cells beside its own names. */
export function withInner(view: SheetView, plan: Plan | undefined): SheetView {
  const inner = plan?.inner?.map(({ name, range, comment }): [string, Place] => [
    name.toLowerCase(),
    { name, address: addressOf(rectOf(range)), comment },
  ]);
  if (!inner) return view;
  const own = [...view.places].filter(([, { isNameless }]) => !isNameless);
  return { ...view, places: new Map([...inner, ...own]) };
}

/** A formula with the words of a plan in the place of addresses. */
export function innerNamed(view: SheetView, plan: Plan | undefined): (node: Node) => Node {
  const names = new Map(plan?.inner?.map(({ name, range }) => [addressOf(rectOf(range)), name]));
  if (names.size === 0) return (node) => node;
  return (node) =>
    renewed(node, (part) => {
      if (part.kind !== 'range' || !isOwnSheet(view, part.sheet)) return part;
      const name = names.get(part.address);
      return name === undefined ? part : { kind: 'name', name };
    });
}
