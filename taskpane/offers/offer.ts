import type { Offer } from '../../src/procurement/offers/offer';
import { type ReadNumber, readNumber } from '../need/number';
import type { DecimalMark } from '../parse/number';
import {
  OFFER_FIELDS,
  OFFER_IDS,
  OFFER_NUMBERS,
  type OfferNumber,
  type OfferTexts,
  withoutUnit,
} from './fields';

export type OfferMarks = Readonly<Partial<Record<OfferNumber, DecimalMark>>>;

/** An offer as far as it is understood. What is not stated stays away: it is a question, not a zero. */
export interface UnderstoodOffer {
  readonly numbers: Readonly<Record<OfferNumber, ReadNumber>>;
  readonly texts: Readonly<Partial<Record<'bidder' | 'standard' | 'currency', string>>>;
  readonly offer?: Offer;
}

export function isBlankOffer(texts: OfferTexts): boolean {
  return OFFER_IDS.every((id) => texts[id].trim() === '');
}

/** Texts → offer, or what is wrong with which field. */
export function understandOffer(texts: OfferTexts, marks: OfferMarks = {}): UnderstoodOffer {
  const numbers = Object.fromEntries(
    OFFER_NUMBERS.map((id) => [
      id,
      readNumber(withoutUnit(id, texts[id]), OFFER_FIELDS[id].expect!, marks[id]),
    ]),
  ) as Record<OfferNumber, ReadNumber>;
  const problems = textProblems(texts);
  const isFit =
    Object.keys(problems).length === 0 &&
    Object.values(numbers).every(({ problem, question }) => !problem && !question);
  if (!isFit) return { numbers, texts: problems };
  const stated = (id: 'standard' | 'currency') => (texts[id].trim() === '' ? {} : { [id]: texts[id].trim() });
  return {
    numbers,
    texts: problems,
    offer: {
      bidder: texts.bidder.trim(),
      ...stated('standard'),
      ...stated('currency'),
      ...Object.fromEntries(
        OFFER_NUMBERS.flatMap((id) => (numbers[id].value === undefined ? [] : [[id, numbers[id].value]])),
      ),
    },
  };
}

function textProblems(texts: OfferTexts): UnderstoodOffer['texts'] {
  const found: Partial<Record<'bidder' | 'standard' | 'currency', string>> = {};
  for (const id of ['bidder', 'standard', 'currency'] as const) {
    const { label, length = 0 } = OFFER_FIELDS[id];
    if (texts[id].trim().length > length) found[id] = `${label}: at most ${length} characters.`;
  }
  if (texts.bidder.trim() === '') found.bidder = 'The offer needs a name.';
  return found;
}
