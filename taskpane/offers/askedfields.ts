import type { UsePlan } from '../../src/procurement/offers/offer';
import type { FieldSpec, FieldTable, Reads, Texts } from '../form/field';
import { isFit } from '../form/read';
import { CURRENCY_MAX } from './fields';

export type AskedField = 'white' | 'colour' | 'years' | 'hoursPerYear' | 'tariff' | 'currency';
/** What all offers are held against, as typed. */
export type AskedTexts = Texts<AskedField>;

/** A figure that must be there. */
function figure(label: string, what: string, unit: string, max: number, more = {}): FieldSpec<AskedField> {
  const expect = { what, unit, moreThan: 0, max };
  return { kind: 'number', label, expect, needed: `${label}: a figure is needed.`, ...more };
}

/** Bounds are those of the sheet. Years and hours have a usual start; prices and currency have none. */
export const ASKED: FieldTable<AskedField> = {
  white: figure('White asked for, lm', 'white asked for', 'lm', 1e6),
  colour: figure('Colour asked for, lm', 'colour asked for', 'lm', 1e6),
  years: figure('Planned years', 'planned years', '', 50, { start: '5' }),
  hoursPerYear: figure('Hours a year', 'hours a year', '', 8784, { start: '1000' }),
  tariff: figure('Price of a kilowatt hour', 'price of a kilowatt hour', '', 1000, {
    hint: 'In the currency beside it.',
  }),
  currency: {
    kind: 'text',
    label: 'Currency of the plan',
    hint: 'Nothing is ever converted.',
    max: CURRENCY_MAX,
    needed: 'The currency of the plan is needed, as the offers write it.',
  },
};

/** Figures asked for and plan of use; each comes by itself as soon as its fields are fit. */
export function understandAsked(
  { currency }: AskedTexts,
  reads: Reads<AskedField>,
): { readonly asked?: { readonly white: number; readonly colour: number }; readonly use?: UsePlan } {
  const { white, colour, years, hoursPerYear, tariff } = reads;
  const use = [years, hoursPerYear, tariff, reads.currency];
  return {
    ...(isFit(white) && isFit(colour) ? { asked: { white: white.value!, colour: colour.value! } } : {}),
    ...(use.every(isFit)
      ? {
          use: {
            years: years.value!,
            hoursPerYear: hoursPerYear.value!,
            tariff: tariff.value!,
            currency: currency.trim(),
          },
        }
      : {}),
  };
}
