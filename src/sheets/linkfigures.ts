import { ASKED_STEP } from '../procurement/wording/format';
import { addressesOf, withFormulas } from './filled';
import { figureLink, type LinkedSheet } from './link';
import type { Plan } from './plan';

/** Links by the names of the cells they go into; undefined where there is nothing to link to. */
export type Links = Readonly<Record<string, string | undefined>>;

/** A plan with links in input cells. What the plan has no cell for is left out. */
export function withLinks(plan: Plan, links: Links): Plan {
  const addresses = addressesOf(plan);
  return withFormulas(
    plan,
    Object.entries(links).flatMap(([name, formula]) =>
      formula !== undefined && addresses[name] ? [{ at: addresses[name], formula }] : [],
    ),
  );
}

/** Rounded up as the words of a tender are; a rounding of doubles above a whole number is no reason for a step more. */
export function roundedUp(ref: string): string {
  return `ROUNDUP(${ref}/${ASKED_STEP}*(1-0.000000000001),0)*${ASKED_STEP}`;
}

/** What an offers sheet asks for, from a need sheet: the largest figures, rounded up. */
export function askedLinks(need: LinkedSheet): Links {
  return {
    AskedWhite: figureLink(need, 'LargestWhite', { of: roundedUp }),
    AskedColour: figureLink(need, 'LargestColour', { of: roundedUp }),
  };
}

/** Rated figures of a run or a batch, from the offer chosen on an offers sheet. */
export function ratedLinks(offers: LinkedSheet): Links {
  return {
    RatedWhite: figureLink(offers, 'ChosenWhite'),
    RatedColour: figureLink(offers, 'ChosenColour'),
  };
}
