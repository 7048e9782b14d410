import { amountOf } from '../parse/currency';
import { OFFER_FIELDS, type OfferNumber } from './fields';

/** A figure of an offer as somebody wrote it, taken apart. */
export interface Figure {
  /** The number, with what is no known unit left on it to be refused. */
  readonly text: string;
  /** What the number is to be multiplied by: 1000 where kilowatts are written. */
  readonly factor: number;
  /** The currency that stood with it. */
  readonly currency?: string;
}

const KILOWATTS = /\s*(kw|kilowatts?)$/i;

/** "4.100,00 €" → 4.100,00 and EUR; "0,55 kW" → 0,55, a thousand watts each. Lumens keep their unit: the parser knows them. */
export function figureOf(id: OfferNumber, text: string): Figure {
  if (id === 'price' || id === 'sourcePrice') {
    const { amount, currency } = amountOf(text);
    return { text: amount, factor: 1, ...(currency ? { currency } : {}) };
  }
  // "30 years" ends in a unit; a unit alone is no number and stays to be refused.
  if (!/\d/.test(text)) return { text, factor: 1 };
  const plain = text.trim();
  if (id === 'power' && KILOWATTS.test(plain)) return { text: plain.replace(KILOWATTS, ''), factor: 1000 };
  const { unit } = OFFER_FIELDS[id];
  return { text: unit ? plain.replace(unit, '') : text, factor: 1 };
}
