import { notAboveZero, notAtLeastZero } from '../../metrology/check';
import type { Problem } from '../../photometry/outcome';

/** What a bidder states about one model. A figure that is not stated stays away: it is a question, not a zero. */
export interface Offer {
  readonly bidder: string;
  /** Rated light output, lm. */
  readonly white?: number;
  readonly colour?: number;
  /** The standard both figures are rated by, as the bidder names it. */
  readonly standard?: string;
  /** Price of one unit and its currency, as the bidder writes it. */
  readonly price?: number;
  readonly currency?: string;
  /** Electric power in the rated mode, W. */
  readonly power?: number;
  /** Hours until the light source is replaced, and the price of the replacement. */
  readonly sourceLife?: number;
  readonly sourcePrice?: number;
  /** Years. */
  readonly warranty?: number;
}

/** What the units are planned for. */
export interface UsePlan {
  readonly years: number;
  readonly hoursPerYear: number;
  /** Price of a kilowatt hour, and the currency of all costs that are to be compared. */
  readonly tariff: number;
  readonly currency: string;
}

export function planProblems({ years, hoursPerYear, tariff }: UsePlan): Problem[] {
  return [
    ...notAboveZero(years, 'planned years'),
    ...notAboveZero(hoursPerYear, 'hours a year'),
    ...notAtLeastZero(tariff, 'price of a kilowatt hour'),
  ];
}

/** Problems of figures that are stated; what is not stated is no problem here. */
export function offerProblems(offer: Offer): Problem[] {
  const of = (what: string) => `${what} of ${offer.bidder}`;
  const positive = (value: number | undefined, what: string) =>
    value === undefined ? [] : notAboveZero(value, of(what));
  const notNegative = (value: number | undefined, what: string) =>
    value === undefined ? [] : notAtLeastZero(value, of(what));
  return [
    ...positive(offer.white, 'white light output'),
    ...positive(offer.colour, 'colour light output'),
    ...notNegative(offer.price, 'price'),
    ...positive(offer.power, 'power'),
    ...positive(offer.sourceLife, 'source life'),
    ...notNegative(offer.sourcePrice, 'price of a replacement source'),
    ...notNegative(offer.warranty, 'warranty'),
  ];
}

/** A text that says something. */
export function isStated(text: string | undefined): text is string {
  return text !== undefined && text.trim() !== '';
}

/** Currencies are texts; they are one currency if they read alike. Nothing is ever converted. */
export function sameCurrency(a: string | undefined, b: string | undefined): boolean {
  return isStated(a) && isStated(b) && a.trim().toUpperCase() === b.trim().toUpperCase();
}
