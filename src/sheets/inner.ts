import { absolute } from './address';
import type { Plan, PlanName } from './plan';
import { tokens } from './tokens';

/*
 * Names that formulas of a plan are written with and the sheet has not: there they have the addresses. Sheets of former
 * layouts have the names.
 */

/** A formula with addresses in the place of inner names. */
export function addressed(inner: ReadonlyMap<string, string>): (formula: string) => string {
  const addresses = new Map([...inner].map(([name, range]) => [name, absolute(range)]));
  return (formula) =>
    tokens(formula)
      .map(({ kind, text }) => (kind === 'word' ? (addresses.get(text) ?? text) : text))
      .join('');
}

/** The other way: formulas of a plan as they were written. */
export function asWritten({ inner = [] }: Plan): (formula: string) => string {
  const names = new Map(inner.map(({ name, range }) => [absolute(range), name as string]));
  if (names.size === 0) return (formula) => formula;
  return (formula) => {
    const pieces = tokens(formula).map(({ text }) => text);
    const found: string[] = [];
    for (let i = 0; i < pieces.length; i++) {
      const whole = pieces.slice(i, i + 3).join('');
      const [range, cell] = [names.get(whole), names.get(pieces[i]!)];
      // A cell of another sheet is not meant.
      const isOther = pieces[i - 1] === '!';
      if (range !== undefined && pieces[i + 1] === ':' && !isOther) {
        found.push(range);
        i += 2;
      } else found.push(cell !== undefined && pieces[i + 1] !== ':' && !isOther ? cell : pieces[i]!);
    }
    return found.join('');
  };
}

/** What a plan calls its cells, whether the sheet does or not. */
export function namesIn({ names, inner = [] }: Plan): readonly PlanName[] {
  return inner.length === 0 ? names : [...names, ...inner];
}
