import type { FieldSpec, Texts } from '../form/field';
import { startOf } from '../form/read';
import type { Expectation } from '../parse/quantity';
import { currenciesOf, figureOf, type OfferNumber, readFigure } from './figure';

export type { OfferNumber };
export type OfferField = OfferNumber | 'bidder' | 'standard' | 'currency';

/** What stands in the fields of an offer. */
export type OfferTexts = Texts<OfferField>;

type OfferSpec = FieldSpec<OfferField> & {
  /** In words, for messages about imported rows. */
  readonly wanted: string;
};

/** Most characters of a currency. */
export const CURRENCY_MAX = 12;
const NAME_MAX = 80;

/** A figure with the unit or the currency that people write behind it. */
function figure(id: OfferNumber, label: string, wanted: string, expect: Expectation): OfferSpec {
  return {
    kind: 'number',
    label,
    wanted,
    expect,
    read: (text, mark) => readFigure(figureOf(id, text), expect, mark),
  };
}
const money = (id: 'price' | 'sourcePrice', label: string, what: string) =>
  figure(id, label, 'a price above 0', { what, unit: '', moreThan: 0, max: 1e9 });
const lumens = (id: 'white' | 'colour', what: string) =>
  figure(id, `Rated ${id}, lm`, 'lumens above 0, at most 1 000 000', {
    what,
    unit: 'lm',
    moreThan: 0,
    max: 1e6,
  });

/** Bounds and lengths are those of the sheet. The order is that of its columns and of the exported file. */
export const OFFER_FIELDS: Readonly<Record<OfferField, OfferSpec>> = {
  bidder: {
    kind: 'text',
    label: 'Bidder and offer',
    max: NAME_MAX,
    wanted: `a name of at most ${NAME_MAX} characters`,
    needed: 'The offer needs a name.',
  },
  white: lumens('white', 'rated white'),
  colour: lumens('colour', 'rated colour'),
  standard: {
    kind: 'text',
    label: 'Standard named',
    max: NAME_MAX,
    wanted: `a text of at most ${NAME_MAX} characters`,
  },
  price: money('price', 'Price of one unit', 'price'),
  currency: {
    kind: 'text',
    label: 'Currency',
    max: CURRENCY_MAX,
    wanted: `a text of at most ${CURRENCY_MAX} characters`,
    check: (_, texts) => {
      const named = currenciesOf(texts);
      return named.length > 1
        ? { problem: `Currency: the offer names ${named.join(' and ')}; one is wanted.` }
        : undefined;
    },
  },
  power: figure('power', 'Power, W', 'watts above 0, at most 100 000', {
    what: 'power',
    unit: '',
    moreThan: 0,
    max: 1e5,
  }),
  sourceLife: figure('sourceLife', 'Source life, h', 'hours above 0, at most 1 000 000', {
    what: 'source life',
    unit: '',
    moreThan: 0,
    max: 1e6,
  }),
  sourcePrice: money('sourcePrice', 'Price of a source', 'price of a source'),
  warranty: figure('warranty', 'Warranty, years', 'years from 0 to 30', {
    what: 'warranty',
    unit: '',
    min: 0,
    max: 30,
  }),
};

export const OFFER_IDS = Object.keys(OFFER_FIELDS) as OfferField[];
export const OFFER_NUMBERS = OFFER_IDS.filter(isNumber);

export function isNumber(id: OfferField): id is OfferNumber {
  return OFFER_FIELDS[id].kind === 'number';
}

export const EMPTY_OFFER: OfferTexts = startOf(OFFER_FIELDS);
