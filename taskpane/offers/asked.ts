import type { UsePlan } from '../../src/procurement/offers/offer';
import type { DecimalMark } from '../parse/number';
import type { Expectation } from '../parse/quantity';
import { type ReadNumber, readNumber } from '../parse/readnumber';

export type AskedNumber = 'white' | 'colour' | 'years' | 'hoursPerYear' | 'tariff';
export type AskedField = AskedNumber | 'currency';
/** What all offers are held against, as typed. */
export type AskedTexts = Readonly<Record<AskedField, string>>;
export type AskedMarks = Readonly<Partial<Record<AskedNumber, DecimalMark>>>;

export interface AskedSpec {
  readonly label: string;
  readonly hint: string;
  readonly expect: Expectation;
}

/** Bounds are those of the sheet. */
export const ASKED_NUMBERS: Readonly<Record<AskedNumber, AskedSpec>> = {
  white: {
    label: 'White asked for, lm',
    hint: '',
    expect: { what: 'white asked for', unit: 'lm', moreThan: 0, max: 1e6 },
  },
  colour: {
    label: 'Colour asked for, lm',
    hint: '',
    expect: { what: 'colour asked for', unit: 'lm', moreThan: 0, max: 1e6 },
  },
  years: {
    label: 'Planned years',
    hint: '',
    expect: { what: 'planned years', unit: '', moreThan: 0, max: 50 },
  },
  hoursPerYear: {
    label: 'Hours a year',
    hint: '',
    expect: { what: 'hours a year', unit: '', moreThan: 0, max: 8784 },
  },
  tariff: {
    label: 'Price of a kilowatt hour',
    hint: 'In the currency beside it.',
    expect: { what: 'price of a kilowatt hour', unit: '', moreThan: 0, max: 1000 },
  },
};
const IDS = Object.keys(ASKED_NUMBERS) as AskedNumber[];

/** Years and hours have a usual start; prices and currency have none. */
export const START_ASKED: AskedTexts = {
  white: '',
  colour: '',
  years: '5',
  hoursPerYear: '1000',
  tariff: '',
  currency: '',
};

const CURRENCY_MAX = 12;

export interface UnderstoodAsked {
  readonly numbers: Readonly<Record<AskedNumber, ReadNumber>>;
  readonly currency: string | undefined;
  readonly asked?: { readonly white: number; readonly colour: number };
  readonly use?: UsePlan;
}

/** Texts → figures asked for and plan of use; each comes by itself as soon as its fields are fit. */
export function understandAsked(texts: AskedTexts, marks: AskedMarks = {}): UnderstoodAsked {
  const numbers = Object.fromEntries(
    IDS.map((id) => {
      const { label, expect } = ASKED_NUMBERS[id];
      const isMissing = texts[id].trim() === '';
      return [
        id,
        isMissing ? { problem: `${label}: a figure is needed.` } : readNumber(texts[id], expect, marks[id]),
      ];
    }),
  ) as Record<AskedNumber, ReadNumber>;
  const currency =
    texts.currency.trim() === ''
      ? 'The currency of the plan is needed, as the offers write it.'
      : texts.currency.trim().length > CURRENCY_MAX
        ? `At most ${CURRENCY_MAX} characters.`
        : undefined;
  const [white, colour, years, hoursPerYear, tariff] = IDS.map((id) => numbers[id].value);
  return {
    numbers,
    currency,
    ...(white === undefined || colour === undefined ? {} : { asked: { white, colour } }),
    ...(years === undefined || hoursPerYear === undefined || tariff === undefined || currency !== undefined
      ? {}
      : { use: { years, hoursPerYear, tariff, currency: texts.currency.trim() } }),
  };
}
