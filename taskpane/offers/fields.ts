import type { Expectation } from '../parse/quantity';

export type OfferNumber = 'white' | 'colour' | 'price' | 'power' | 'sourceLife' | 'sourcePrice' | 'warranty';
export type OfferField = OfferNumber | 'bidder' | 'standard' | 'currency';

/** What stands in the fields of an offer. */
export type OfferTexts = Readonly<Record<OfferField, string>>;

export interface OfferSpec {
  readonly label: string;
  /** Of a number: what it must be. Of a text: how long it may be. */
  readonly expect?: Expectation;
  readonly length?: number;
  /** Spellings of the unit that may stand behind the number. */
  readonly unit?: RegExp;
  /** In words, for messages about imported rows. */
  readonly wanted: string;
}

const money = (what: string): Expectation => ({ what, unit: '', moreThan: 0, max: 1e9 });
const lumens = (what: string): Expectation => ({ what, unit: 'lm', moreThan: 0, max: 1e6 });

/** Bounds and lengths are those of the sheet. The order is that of its columns and of the exported file. */
export const OFFER_FIELDS: Readonly<Record<OfferField, OfferSpec>> = {
  bidder: { label: 'Bidder and offer', length: 80, wanted: 'a name of at most 80 characters' },
  white: {
    label: 'Rated white, lm',
    expect: lumens('rated white'),
    wanted: 'lumens above 0, at most 1 000 000',
  },
  colour: {
    label: 'Rated colour, lm',
    expect: lumens('rated colour'),
    wanted: 'lumens above 0, at most 1 000 000',
  },
  standard: { label: 'Standard named', length: 80, wanted: 'a text of at most 80 characters' },
  price: { label: 'Price of one unit', expect: money('price'), wanted: 'a price above 0' },
  currency: { label: 'Currency', length: 12, wanted: 'a text of at most 12 characters' },
  power: {
    label: 'Power, W',
    expect: { what: 'power', unit: '', moreThan: 0, max: 1e5 },
    unit: /\s*(w|watts?)$/i,
    wanted: 'watts above 0, at most 100 000',
  },
  sourceLife: {
    label: 'Source life, h',
    expect: { what: 'source life', unit: '', moreThan: 0, max: 1e6 },
    unit: /\s*(h|hrs?|hours?)$/i,
    wanted: 'hours above 0, at most 1 000 000',
  },
  sourcePrice: {
    label: 'Price of a source',
    expect: money('price of a source'),
    wanted: 'a price above 0',
  },
  warranty: {
    label: 'Warranty, years',
    expect: { what: 'warranty', unit: '', min: 0, max: 30 },
    unit: /\s*(y|yrs?|years?)$/i,
    wanted: 'years from 0 to 30',
  },
};

export const OFFER_IDS = Object.keys(OFFER_FIELDS) as OfferField[];
export const OFFER_NUMBERS = OFFER_IDS.filter(
  (id): id is OfferNumber => OFFER_FIELDS[id].expect !== undefined,
);

export function isNumber(id: OfferField): id is OfferNumber {
  return OFFER_FIELDS[id].expect !== undefined;
}

export const EMPTY_OFFER: OfferTexts = Object.fromEntries(OFFER_IDS.map((id) => [id, ''])) as OfferTexts;
