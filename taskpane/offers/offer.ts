import type { Offer } from '../../src/procurement/offers/offer';
import { numbersIn, readAll, unfitIn } from '../form/read';
import { OFFER_FIELDS, OFFER_IDS, OFFER_NUMBERS, type OfferTexts } from './fields';
import { currenciesOf } from './figure';

export function isBlankOffer(texts: OfferTexts): boolean {
  return OFFER_IDS.every((id) => texts[id].trim() === '');
}

/**
 * Texts → offer; undefined while a field wants another look. What is not stated stays away: it is a question, not a
 * zero.
 */
export function offerOf(texts: OfferTexts, reads = readAll(OFFER_FIELDS, texts)): Offer | undefined {
  if (unfitIn(reads).length > 0) return undefined;
  const standard = texts.standard.trim();
  const [currency] = currenciesOf(texts);
  return {
    bidder: texts.bidder.trim(),
    ...(standard ? { standard } : {}),
    ...(currency ? { currency } : {}),
    ...numbersIn(reads, OFFER_NUMBERS),
  };
}
