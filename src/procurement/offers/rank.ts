import type { Assessment } from './assess';
import { isStated } from './offer';

/** What offers can be put in order by, cheapest first. */
const FIGURES = {
  'price per white lumen': (a: Assessment) => a.pricePerLumen.white,
  'price per colour lumen': (a: Assessment) => a.pricePerLumen.colour,
  'cost over the years': (a: Assessment) => a.lifeCost?.total,
  'cost per white lumen-hour': (a: Assessment) => a.costPerLumenHour.white,
  'cost per colour lumen-hour': (a: Assessment) => a.costPerLumenHour.colour,
} as const;

export type RankedBy = keyof typeof FIGURES;
export const RANKED_BY = Object.keys(FIGURES) as [RankedBy, ...RankedBy[]];

/** A place from 1 among the offers of one currency; `ask` where a figure is missing, `short` where the need is not met. */
export type Rank = number | 'ask' | 'short';

/**
 * Places of the offers, in their order. Only offers that meet the need and carry the figure have one, and only
 * offers in equal currencies are compared: each currency counts from 1. Equal figures share a place.
 */
export function rank(assessed: readonly Assessment[], by: RankedBy): Rank[] {
  const figure = FIGURES[by];
  const entries = assessed.map((one) => ({
    state: one.state,
    figure: figure(one),
    currency: isStated(one.offer.currency) ? one.offer.currency.trim().toUpperCase() : undefined,
  }));
  return entries.map((one): Rank => {
    if (one.state === 'short') return 'short';
    if (one.state === 'ask' || one.figure === undefined || one.currency === undefined) return 'ask';
    const mine = one.figure;
    const cheaper = entries.filter(
      ({ state, figure: theirs, currency }) =>
        state === 'meets' && theirs !== undefined && currency === one.currency && theirs < mine,
    );
    return cheaper.length + 1;
  });
}
